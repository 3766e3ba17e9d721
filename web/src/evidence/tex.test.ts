import { describe, expect, it } from 'vitest';
import type { Quantity, Step } from '../engine/contract';
import { typeset } from './katex';
import { stepTex, symbolTex, valueTex } from './tex';

const quantity = (text: string): Quantity => ({ value: 0, quantity: 'number', si: text, us: text });
const step = (formula: string, inputs: Record<string, string>, value = '1'): Step => ({
  symbol: formula.split(' ')[0]!,
  meaning: '',
  kind: 'told',
  formula,
  inputs: Object.entries(inputs).map(([symbol, text]) => ({ symbol, meaning: '', value: quantity(text) })),
  value: quantity(value),
  source: '',
});

describe('formulas of a working', () => {
  it('sets the formula, then the same with its numbers put in', () => {
    const lines = stepTex(
      step('p = sqrt(q E* / (2 pi R))', { q: '60 N/mm', 'E*': '226 GPa', R: '4.2 mm' }, '872 MPa'),
      'si',
    );
    expect(lines?.[0]).toBe('p = \\sqrt{\\frac{q \\, E^{*}}{2 \\, \\pi \\, R}}');
    expect(lines?.[1]).toContain('60\\,\\mathrm{N/mm} \\cdot 226\\,\\mathrm{GPa}');
    expect(lines?.[1]).toMatch(/= 872\\,\\mathrm\{MPa\}$/);
  });

  it('divides from left to right, as the engine computes', () => {
    expect(stepTex(step('T = F d / 2', { F: '3 N', d: '4 m' }), 'si')?.[0]).toBe('T = \\frac{F \\, d}{2}');
    expect(stepTex(step('x = a / b c', {}), 'si')?.[0]).toContain('\\frac{a}{b} \\, c');
  });

  it('keeps brackets that matter and drops those a fraction replaces', () => {
    expect(stepTex(step('J = (m + m_r) (d / 2)^2', {}), 'si')?.[0]).toContain(
      '\\left(m + m_{r}\\right) \\, {\\left(\\frac{d}{2}\\right)}^{2}',
    );
  });

  it('puts negative numbers of a product in brackets', () => {
    expect(stepTex(step('y = a b', { a: '2', b: '-3 mm' }), 'si')?.[1]).toContain(
      '2 \\cdot \\left(-3\\,\\mathrm{mm}\\right)',
    );
  });

  it('gives up quietly on what is no formula', () => {
    expect(stepTex(step('F from the table; see there', {}), 'si')).toBeUndefined();
  });

  it('sets what KaTeX can typeset', () => {
    for (const formula of [
      'F_U = C f L g [q_RO + q_RU + (2 q_B + q_G) cos(d)] + q_G H g + F_S',
      'u* = [K^2 (2 Z - 1) - (Z - 2)] / (K (Z + 1))',
      'L10h = 10^6 / (60 n) (C / P)^(10/3)',
      'a = max(b, c) + |d|',
      'w = 2 v / d',
    ]) {
      const lines = stepTex(step(formula, {}, '1.5e-5 mm2/s'), 'si');
      expect(lines, formula).toBeDefined();
      for (const line of lines!) expect(typeset(line, true), formula).not.toContain('katex-error');
    }
  });
});

describe('symbols and values', () => {
  it('reads subscripts, stars, Greek and digits', () => {
    expect(symbolTex('sigma_H')).toBe('\\sigma_{H}');
    expect(symbolTex('E*')).toBe('E^{*}');
    expect(symbolTex('T2')).toBe('T_{2}');
    expect(symbolTex('p_max')).toBe('p_{\\mathrm{max}}');
  });
  it('reads numbers with exponents and units', () => {
    expect(valueTex('1.5e-5 mm2/s')).toBe('1.5\\cdot 10^{-5}\\,\\mathrm{mm^{2}/s}');
    expect(valueTex('40 °C')).toBe('40\\,\\mathrm{{}^\\circ C}');
    expect(valueTex('5 %')).toBe('5\\,\\mathrm{\\%}');
  });
});
