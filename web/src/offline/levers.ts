// Three values that anybody wants to move first: what loads the machine, how fast it runs, how warm it gets around it.
import { get, put, type Doc } from '../enquiry/path';
import { field, type Field } from '../enquiry/schema';
import { siOf, valueText, written } from '../enquiry/shown';
import { displayUnit, fromSi, split, type System, type Unit } from '../quantity/units';

export interface Lever {
  kind: 'load' | 'speed' | 'ambient';
  path: string;
  field: Field;
  /** Handed over, low and high end of the slider, SI. */
  start: number;
  low: number;
  high: number;
  unit: Unit;
}

/** What carries the load of a machine, the plainest first; a machine has the first one that was said of it. */
const kLoads = [
  'measured_torque',
  'measured_power',
  'measured_current',
  'mass_flow',
  'load_mass',
  'fill',
  'load_share',
  'mass',
  'tilting_moment',
  'bulk_density',
  'density',
];
const kSpeeds = ['speed', 'slewing_speed'];
const kColdest = 253.15; // [K], and the warmest: where people work and reducers stand
const kWarmest = 333.15;

function lever(
  doc: Doc,
  kind: Lever['kind'],
  path: string,
  ends: (start: number) => [number, number],
): Lever | undefined {
  const described = field(path);
  const value = get(doc, path);
  const start = described?.kind === 'quantity' ? siOf(value, described) : undefined;
  if (!described || start === undefined) return undefined;
  const unit =
    (typeof value === 'string' ? split(value, described.quantity)?.unit : undefined) ??
    displayUnit(described.quantity, 'si');
  const [low, high] = ends(start);
  return {
    kind,
    path,
    field: described,
    start,
    low: Math.max(low, described.low ?? -Infinity),
    high: Math.min(high, described.high ?? Infinity),
    unit,
  };
}

export function leversOf(doc: Doc): Lever[] {
  const [machine] = Object.keys((doc['machine'] ?? {}) as Doc);
  const first = (names: string[]) => {
    const name = names.find((each) => get(doc, `machine.${machine}.${each}`) !== undefined);
    return `machine.${machine}.${name ?? ''}`;
  };
  return [
    lever(doc, 'load', first(kLoads), (start) => [0.25 * start, 3 * start]),
    lever(doc, 'speed', first(kSpeeds), (start) => [0.5 * start, 1.5 * start]),
    lever(doc, 'ambient', 'site.ambient_high', () => [kColdest, kWarmest]),
  ].filter((each) => each !== undefined);
}

/** The enquiry with the lever at an SI value; where it was handed over, with the text that was handed over. */
export function pulled(doc: Doc, at: Lever, si: number, handed: Doc): Doc {
  const there = Math.abs(fromSi(si, at.unit) - fromSi(at.start, at.unit)) < stepOf(at) / 2;
  return put(doc, at.path, there ? get(handed, at.path) : written(si, at.unit, 4));
}

export const leverText = (at: Lever, si: number, system: System): string =>
  valueText(written(si, at.unit, 4), at.field, system);

/** A step that a hand can aim at: about a hundredth of the way, on a round figure of the unit. */
export function stepOf(at: Lever): number {
  const way = Math.abs(fromSi(at.high, at.unit) - fromSi(at.low, at.unit)) / 100;
  const size = 10 ** Math.floor(Math.log10(way));
  return [1, 2, 5, 10].map((each) => each * size).find((each) => each >= way)!;
}
