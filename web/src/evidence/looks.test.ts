import { describe, expect, it } from 'vitest';
import type { Chart } from '../engine/contract';
import { decades, looks, markPath } from './looks';

const unit = { unit: '', factor: 1, offset: 0 };
const axis = { si: unit, us: unit };
type Series = Chart['series'][number];
const series = (name: string, count: number, more: Partial<Series> = {}): Series => ({
  name: { si: name, us: name },
  x: Array.from({ length: count }, (_, i) => i),
  y: Array.from({ length: count }, (_, i) => i),
  dashed: false,
  band: false,
  ...more,
});
const chart = (list: Series[], bars = false): Chart => ({
  id: 'c',
  title: 't',
  x_label: 'x',
  y_label: 'y',
  x_quantity: 'number',
  y_quantity: 'number',
  x_unit: axis,
  y_unit: axis,
  bars,
  log_x: false,
  log_y: false,
  pair: [],
  series: list,
});

describe('looks of series', () => {
  it('differ without colour', () => {
    const list = [
      series('line', 9),
      series('other line', 9),
      series('third', 9),
      series('limit', 2, { dashed: true }),
      series('second limit', 2, { dashed: true }),
      series('third limit', 2, { dashed: true }),
      series('point', 1),
      series('another point', 1, { dashed: true }),
      series('range', 5, { band: true }),
    ];
    const drawn = looks(chart(list));
    const kinds = drawn.map((look) => look.kind);
    expect(kinds).toEqual(['line', 'line', 'line', 'limit', 'limit', 'limit', 'point', 'point', 'band']);
    const seen = drawn.map(({ kind, dash, mark }) => JSON.stringify([kind, dash, mark]));
    expect(new Set(seen).size).toBe(list.length);
  });
  it('leave a line alone without marks', () => {
    expect(looks(chart([series('line', 9), series('limit', 2, { dashed: true })]))[0]!.mark).toBeUndefined();
  });
  it('know bars and their limits', () => {
    const kinds = looks(chart([series('a', 2), series('asked for', 2, { dashed: true })], true)).map(
      (look) => look.kind,
    );
    expect(kinds).toEqual(['bar', 'limit']);
  });
  it('have closed marks of finite size', () => {
    for (const look of looks(chart(Array.from({ length: 6 }, (_, i) => series(String(i), 9)))))
      expect(markPath(look.mark!, 4)).toMatch(/^M[-\d.,L]+Z$/);
  });
});

describe('an axis by decades', () => {
  it('ends next to its data', () => {
    expect(decades(6.7, 44, 8)).toEqual({ domain: [5, 50], ticks: [5, 10, 20, 50] });
  });
  it('marks whole decades where there is little room', () => {
    const { domain, ticks } = decades(6.2, 17480, 6);
    expect(domain.map((value) => Number(value.toPrecision(6)))).toEqual([5, 20000]);
    expect(ticks).toEqual([10, 100, 1000, 10000]);
  });
  it('has room for a single figure, and never many marks', () => {
    const { domain } = decades(10, 10, 5);
    expect(domain[0]).toBeLessThan(domain[1]);
    expect(decades(1, 1e12, 6).ticks.length).toBeLessThanOrEqual(7);
  });
});
