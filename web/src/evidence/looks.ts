// How each series of a chart is drawn, and told apart without colour: by dashes, by marks, by breadth.
import type { Chart } from '../engine/contract';

const tones = ['var(--glass)', 'var(--madder)', 'var(--amber)', 'var(--ink-3)', 'var(--ink)'];
const limitTones = ['var(--madder)', 'var(--ink-2)', 'var(--amber)', 'var(--ink-3)'];
const dashes = ['7 4', '2 3', '11 4 2 4', '14 5'];

type Corner = readonly [number, number];
const turned = (count: number, from: number, radius = 1): Corner[] =>
  Array.from({ length: count }, (_, i) => {
    const at = from + (2 * Math.PI * i) / count;
    return [radius * Math.cos(at), radius * Math.sin(at)] as const;
  });
const arm = 0.33;
/** Corners of the marks around the origin, about one unit out. */
const marks: Corner[][] = [
  turned(24, 0, 0.9), // disc
  turned(4, Math.PI / 4, 1.1), // square
  turned(3, -Math.PI / 2, 1.2), // triangle
  turned(4, 0, 1.2), // diamond
  [
    [-arm, -1.1],
    [arm, -1.1],
    [arm, -arm],
    [1.1, -arm],
    [1.1, arm],
    [arm, arm],
    [arm, 1.1],
    [-arm, 1.1],
    [-arm, arm],
    [-1.1, arm],
    [-1.1, -arm],
    [-arm, -arm],
  ], // cross
];

export interface Look {
  kind: 'line' | 'limit' | 'point' | 'band' | 'bar';
  tone: string;
  dash?: string;
  /** Corners of its mark. */
  mark?: Corner[];
}

/** Path of a mark of a radius around a place. */
export const markPath = (mark: Corner[], radius: number, x = 0, y = 0): string =>
  `M${mark.map((corner) => `${(x + radius * corner[0]).toFixed(2)},${(y + radius * corner[1]).toFixed(2)}`).join('L')}Z`;

/** One look for every series. Lines get marks when there are several of them. */
export function looks(chart: Chart): Look[] {
  const kinds = chart.series.map((series): Look['kind'] =>
    chart.bars
      ? series.dashed
        ? 'limit'
        : 'bar'
      : series.x.length === 1
        ? 'point'
        : series.band
          ? 'band'
          : series.dashed
            ? 'limit'
            : 'line',
  );
  const several = kinds.filter((kind) => kind === 'line').length > 1;
  const counts = { line: 0, limit: 0, point: 0, band: 0, bar: 0 };
  let marked = 0;
  const next = () => marks[marked++ % marks.length]!;
  return kinds.map((kind): Look => {
    const nth = counts[kind]++;
    switch (kind) {
      case 'line':
        return { kind, tone: tones[nth % tones.length]!, ...(several ? { mark: next() } : {}) };
      case 'limit':
        return { kind, tone: limitTones[nth % limitTones.length]!, dash: dashes[nth % dashes.length]! };
      case 'point':
        return { kind, tone: 'var(--ink)', mark: next() };
      case 'band':
      case 'bar':
        return { kind, tone: tones[0]! };
    }
  });
}

const steps = [1, 2, 5];

/** An axis that runs by decades: its ends at 1, 2 or 5, marks there too where there is room for so many. */
export function decades(low: number, high: number, most: number): { domain: [number, number]; ticks: number[] } {
  const all: number[] = [];
  for (let power = Math.floor(Math.log10(low)) - 1; power <= Math.ceil(Math.log10(high)) + 1; ++power)
    for (const step of steps) all.push(step * 10 ** power);
  const from = all.findLast((value) => value <= low * (1 + 1e-9))!;
  const to = all.find((value) => value >= high * (1 - 1e-9) && value > from)!;
  const inside = all.filter((value) => value >= from && value <= to);
  const whole = inside.filter((value) => Math.abs(Math.log10(value) - Math.round(Math.log10(value))) < 1e-9);
  const every = Math.ceil(whole.length / most);
  return { domain: [from, to], ticks: inside.length <= most ? inside : whole.filter((_, i) => i % every === 0) };
}
