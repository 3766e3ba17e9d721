// Showing SI values in people's units, by the engine's own table. Reading what people write is the engine's work.
import table from '../generated/units.json';
import { maybe } from '../text/catalogue';

export type System = 'si' | 'us';
export interface Unit {
  name: string;
  factor: number;
  offset: number;
  system?: System;
}
interface QuantityInfo {
  label: string;
  units: Unit[];
  si: string;
  us: string;
  digits: number;
}

const quantities = table as unknown as Record<string, QuantityInfo>;
const plain: QuantityInfo = { label: 'number', units: [{ name: '', factor: 1, offset: 0 }], si: '', us: '', digits: 4 };

export function info(quantity: string): QuantityInfo {
  return quantities[quantity] ?? plain;
}

export function unitNamed(quantity: string, name: string): Unit | undefined {
  return info(quantity).units.find((unit) => unit.name === name);
}

/** Units that people of one system use. */
export function unitsOf(quantity: string, system: System): Unit[] {
  return info(quantity).units.filter((unit) => unit.system === undefined || unit.system === system);
}

export function displayUnit(quantity: string, system: System): Unit {
  const { units, [system]: name } = info(quantity);
  return units.find((unit) => unit.name === name) ?? units[0] ?? plain.units[0]!;
}

/**
 * A display unit in which the value has one to four figures before the point, where the system has one. Service times
 * stay in hours however many there are: bearings are counted so.
 */
export function fittingUnit(si: number, quantity: string, system: System): Unit {
  const usual = displayUnit(quantity, system);
  const size = (unit: Unit) => Math.abs(fromSi(si, unit));
  if (quantity === 'duration' && size(usual) >= 1) return usual;
  if (si === 0 || usual.offset !== 0 || (size(usual) >= 0.1 && size(usual) < 10000)) return usual;
  const fits = unitsOf(quantity, system).filter(
    (unit) => unit.system === usual.system && size(unit) >= 0.1 && size(unit) < 10000,
  );
  return fits[0] ?? usual;
}

export const fromSi = (si: number, unit: Unit): number => (si - unit.offset) / unit.factor;
export const toSi = (shown: number, unit: Unit): number => shown * unit.factor + unit.offset;

/** As the engine writes numbers: so many significant digits, no exponent between 1e-4 and 1e7, no trailing zeros. */
export function number(value: number, digits: number): string {
  if (value === 0) return '0';
  const size = Math.abs(value);
  if (!Number.isFinite(value)) return '–';
  if (size < 1e-4 || size >= 1e7)
    return value
      .toExponential(digits - 1)
      .replace(/\.?0+e/, 'e')
      .replace('e+', 'e');
  const before = Math.floor(Math.log10(size)) + 1;
  const text =
    digits < before
      ? String(Math.round(value / 10 ** (before - digits)) * 10 ** (before - digits))
      : value.toFixed(digits - before);
  const trimmed = text.includes('.') ? text.replace(/\.?0+$/, '') : text;
  return minus(trimmed === '-0' ? '0' : trimmed);
}

const minus = (text: string) => text.replace(/^-/, '\u2212');

/** Number and unit as people read them; some units are words, such as `times an hour`. */
export function withUnit(text: string, unit: string): string {
  const name =
    (text === '1' ? maybe(`unit.${unit}.one`) : undefined) ??
    maybe(`unit.${unit}`) ??
    unit
      .replace(/^um$/, 'µm')
      .replace(/2(?=$|\/)/, '²')
      .replace(/3(?=$|\/)/, '³');
  return name === '' ? text : `${text}\u00a0${name}`;
}

/** A shown value with sensible digits; temperatures to a tenth of a degree, as the engine. */
export const figure = (shown: number, quantity: string, digits = info(quantity).digits): string =>
  quantity === 'temperature' ? number(Math.round(shown * 10) / 10, 12) : number(shown, digits);

/** SI value as text in a unit of the system. */
export function show(si: number, quantity: string, system: System, digits = info(quantity).digits): string {
  const unit = fittingUnit(si, quantity, system);
  return withUnit(figure(fromSi(si, unit), quantity, digits), unit.name);
}

/** Splits what somebody wrote into number and unit name, for showing it; undefined when it is not that simple. */
export function split(text: string, quantity: string): { value: number; unit: Unit } | undefined {
  const match = /^\s*([-+\u2212]?\d+(?:[.,]\d+)?(?:e[-+]?\d+)?)\s*(.*?)\s*$/i.exec(text);
  if (!match) return undefined;
  const unit = unitNamed(quantity, (match[2] ?? '').replace('µ', 'u'));
  const value = Number((match[1] ?? '').replace('\u2212', '-').replace(',', '.'));
  return unit && Number.isFinite(value) ? { value, unit } : undefined;
}

/** A text of the engine as print sets it: squares and cubes of units raised, a true minus. */
export function tidy(text: string): string {
  return text
    .replace(
      /\b(mm|cm|m|in|ft|kg·m|kg·cm|lb·in|lb·ft)([23])(?![\d.])/g,
      (_, unit: string, power: string) => unit + (power === '2' ? '²' : '³'),
    )
    .replace(/(^|[\s(])-(?=\d)/g, '$1\u2212');
}
