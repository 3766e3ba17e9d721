// The shapes of docs/api.md. A test reads real answers of the engine with them, so that they cannot drift apart;
// the page itself takes only the types, and tolerates more than they say.
import * as v from 'valibot';

export interface Problem {
  kind: 'input' | 'data' | 'model' | 'internal';
  path: string;
  message: string;
  offending?: string;
  line?: number;
}

export const quantity = v.object({ value: v.number(), quantity: v.string(), si: v.string(), us: v.string() });
export const sentence = v.object({ si: v.string(), us: v.string() });
const axisUnit = v.object({ unit: v.string(), factor: v.number(), offset: v.number() });
const axis = v.object({ si: axisUnit, us: axisUnit });

export const step = v.object({
  symbol: v.string(),
  meaning: v.string(),
  formula: v.string(),
  inputs: v.array(v.object({ symbol: v.string(), meaning: v.string(), value: quantity })),
  value: quantity,
  source: v.string(),
});

export const check = v.object({
  name: v.string(),
  figure: quantity,
  limit: quantity,
  at_most: v.boolean(),
  margin: v.number(),
  low: v.optional(quantity),
  high: v.optional(quantity),
});

export const chart = v.object({
  id: v.string(),
  title: v.string(),
  x_label: v.string(),
  y_label: v.string(),
  x_quantity: v.string(),
  y_quantity: v.string(),
  x_unit: axis,
  y_unit: axis,
  bars: v.boolean(),
  log_x: v.boolean(),
  log_y: v.boolean(),
  series: v.array(v.object({ name: v.string(), x: v.array(v.number()), y: v.array(v.number()), dashed: v.boolean() })),
});

export const caution = v.object({ key: v.string(), text: v.string() });
export const verdict = v.picklist(['holds', 'holds_if', 'does_not_hold', 'cannot_be_judged']);

export const finding = v.object({
  id: v.string(),
  question: v.string(),
  verdict,
  answer: sentence,
  condition: v.optional(sentence),
  checks: v.array(check),
  notes: v.array(sentence),
  missing: v.array(v.string()),
  left_out: v.array(v.string()),
  working: v.array(step),
  charts: v.array(chart),
  cautions: v.array(caution),
});

export const build = v.object({
  frame: v.string(),
  lobes: v.number(),
  first_frame: v.optional(v.string()),
  first_lobes: v.optional(v.number()),
});

export const requirementLine = v.object({
  path: v.string(),
  label: v.string(),
  value: quantity,
  assumed: v.boolean(),
  low: v.optional(quantity),
  high: v.optional(quantity),
  source: v.optional(v.string()),
});

const assumption = v.object({
  path: v.string(),
  text: v.string(),
  value: quantity,
  low: quantity,
  high: quantity,
  source: v.string(),
});

export const prove = v.object({
  build,
  build_name: v.string(),
  title: v.string(),
  units: v.picklist(['si', 'us']),
  drive: v.array(v.object({ id: v.string(), label: v.string(), value: v.union([quantity, v.string()]) })),
  requirement: v.array(requirementLine),
  findings: v.array(finding),
  assumptions: v.array(assumption),
  cautions: v.array(caution),
  questions: v.array(v.object({ path: v.string(), text: v.string() })),
  influences: v.array(v.object({ unknown: v.string(), change: v.number() })),
  demand_working: v.array(step),
  why_none: v.optional(sentence),
});

export const candidate = v.object({
  build,
  build_name: v.string(),
  ratio: v.number(),
  verdict,
  margins: v.array(v.object({ id: v.string(), margin: v.optional(v.number()), verdict })),
  fell_out: v.optional(sentence),
  price: quantity,
  mass: quantity,
  ratio_error: v.number(),
});

export const size = v.object({
  requirement: v.array(requirementLine),
  candidates: v.array(candidate),
  chosen: v.number(),
  why_none: v.optional(sentence),
});

const geometry = v.object({
  lobes: v.number(),
  pitch_radius: v.number(),
  roller_radius: v.number(),
  eccentricity: v.number(),
  width: v.number(),
  discs: v.number(),
  pins: v.number(),
  pin_circle_radius: v.number(),
  pin_radius: v.number(),
  hole_radius: v.number(),
  bore_radius: v.number(),
  bearing_rollers: v.number(),
  bearing_roller_radius: v.number(),
  output_pin_radius: v.number(),
  ring_pin_radius: v.number(),
  input_shaft_radius: v.number(),
});

const table = v.array(v.array(v.number()));
export const stage = v.object({
  geometry,
  outline: table,
  crank_angles: v.array(v.number()),
  discs: v.array(
    v.object({
      forces: table,
      pressures: table,
      directions: table,
      pin_forces: table,
      loaded: v.array(v.number()),
      bearing: table,
      rolling: table,
    }),
  ),
});

export const discStress = v.object({
  crank_angle: v.number(),
  points: table,
  cells: table,
  displacement: table,
  mises: v.array(v.number()),
});

export const mechanism = v.object({ build_name: v.string(), ratio: v.number(), stages: v.array(stage) });

const gear = { teeth: v.number(), tip_radius: v.number(), outline: table };
export const gears = v.object({
  stages: v.number(),
  ratio: v.number(),
  last_ratio: v.number(),
  pinion: v.object(gear),
  wheel: v.object({ ...gear, centre: v.array(v.number()) }),
  force_direction: v.number(),
  pitch: v.number(),
  instants: v.array(
    v.object({
      pinion_tooth_angle: v.number(),
      wheel_tooth_angle: v.number(),
      contacts: v.array(
        v.object({
          pair: v.number(),
          share: v.number(),
          force: v.number(),
          pressure: v.number(),
          in_section: v.boolean(),
          point: v.optional(v.array(v.number())),
        }),
      ),
    }),
  ),
  facts: v.array(v.object({ label: v.string(), value: quantity })),
});

export type Quantity = v.InferOutput<typeof quantity>;
export type Sentence = v.InferOutput<typeof sentence>;
export type Step = v.InferOutput<typeof step>;
export type Check = v.InferOutput<typeof check>;
export type Chart = v.InferOutput<typeof chart>;
export type Verdict = v.InferOutput<typeof verdict>;
export type Finding = v.InferOutput<typeof finding>;
export type Build = v.InferOutput<typeof build>;
export type RequirementLine = v.InferOutput<typeof requirementLine>;
export type Prove = v.InferOutput<typeof prove>;
export type Candidate = v.InferOutput<typeof candidate>;
export type Size = v.InferOutput<typeof size>;
export type Stage = v.InferOutput<typeof stage>;
export type DiscStress = v.InferOutput<typeof discStress>;
export type Gears = v.InferOutput<typeof gears>;
export type Mechanism = v.InferOutput<typeof mechanism>;
