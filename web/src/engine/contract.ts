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
/** A list of values under one symbol. */
export const quantities = v.object({ ...quantity.entries, value: v.array(v.number()) });
export const sentence = v.object({ si: v.string(), us: v.string() });
const axisUnit = v.object({ unit: v.string(), factor: v.number(), offset: v.number() });
const axis = v.object({ si: axisUnit, us: axisUnit });

export const step = v.object({
  symbol: v.string(),
  symbol_mathml: v.string(),
  meaning: v.string(),
  kind: v.picklist(['computed', 'solved', 'looked_up', 'followed_in_time']),
  formula: v.string(),
  /** Set by the engine from what it computed; absent of what was looked up or followed in time. */
  mathml: v.optional(v.string()),
  inputs: v.array(
    v.object({
      symbol: v.string(),
      symbol_mathml: v.string(),
      meaning: v.string(),
      value: v.union([quantity, quantities]),
    }),
  ),
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
  pair: v.array(v.string()),
  series: v.array(
    v.object({
      name: sentence,
      x: v.array(v.number()),
      y: v.array(v.number()),
      dashed: v.boolean(),
      band: v.boolean(),
    }),
  ),
});

export const caution = v.object({
  key: v.string(),
  text: v.string(),
  rank: v.number(),
  who: v.string(),
  when: v.string(),
});
export const verdict = v.picklist(['holds', 'holds_if', 'does_not_hold', 'cannot_be_judged']);

/** What is not known exactly, and how far it moves the worst margin, as a share of the limit. */
const influence = v.object({ unknown: v.string(), change: v.number() });

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
  /** Only of findings for which it was asked. */
  working: v.optional(v.array(step)),
  charts: v.array(chart),
  cautions: v.array(caution),
  influences: v.array(influence),
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
  questions: v.array(v.object({ path: v.string(), text: v.string(), effect: v.optional(v.string()) })),
  influences: v.array(influence),
  demand_working: v.optional(v.array(step)),
  machine: v.object({ practice: v.optional(v.object({ explanation: v.array(sentence) })) }),
  why_none: v.optional(sentence),
});

export const candidate = v.object({
  build,
  build_name: v.string(),
  ratio: v.number(),
  verdict,
  margins: v.array(v.object({ id: v.string(), margin: v.optional(v.number()), verdict, estimate: v.boolean() })),
  fell_out: v.optional(sentence),
  why: v.optional(sentence),
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
  largest: v.object({ force: v.number(), pressure: v.number() }),
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

const spread = v.object({ nominal: quantity, low: quantity, high: quantity });
const gearFact = v.object({
  label: v.string(),
  value: quantity,
  low: v.optional(quantity),
  high: v.optional(quantity),
});
export const gearUnit = v.object({
  kind: v.string(),
  name: v.string(),
  ratio: v.number(),
  facts: v.array(gearFact),
  stages: v.array(v.object({ kind: v.string(), ratio: v.number(), facts: v.array(gearFact) })),
});

export const gearPair = v.object({
  unit: gearUnit,
  kind_assumed: v.boolean(),
  stage: v.number(),
  stages: v.array(v.object({ kind: v.string(), ratio: v.number(), drawn: v.boolean() })),
  note: v.string(),
  pair: v.object({
    pinion_teeth: v.number(),
    wheel_teeth: v.number(),
    internal: v.boolean(),
    working_angle: v.number(),
    pinion_radii: v.object({ tip: v.number(), pitch: v.number() }),
    wheel_radii: v.object({ tip: v.number(), pitch: v.number() }),
  }),
  pinion_outline: table,
  wheel_outline: table,
  wheel_centre: v.array(v.number()),
  pinion_angles: v.array(v.number()),
  pinion_tooth_angles: v.array(v.number()),
  wheel_tooth_angles: v.array(v.number()),
  contacts: v.array(
    v.array(
      v.object({
        pair: v.number(),
        in_section: v.boolean(),
        point: v.optional(v.array(v.number())),
        share: v.number(),
        force: v.number(),
        pressure: v.number(),
      }),
    ),
  ),
  mean_pairs: v.number(),
  largest_share: v.number(),
  largest_pressure: quantity,
});

const payback = v.object({
  nominal: v.optional(v.number()),
  low: v.optional(v.number()),
  median: v.optional(v.number()),
  high: v.optional(v.number()),
});
export const compare = v.object({
  incumbent: v.nullable(gearUnit),
  axes: v.array(
    v.object({
      id: v.string(),
      question: v.string(),
      candidate: v.optional(spread),
      incumbent: v.optional(spread),
      better: v.picklist(['candidate', 'incumbent', 'even', 'unknown']),
      remark: v.string(),
    }),
  ),
  fit: v.object({
    verdict: v.picklist(['fits', 'adapter', 'does_not_fit', 'unknown']),
    lines: v.array(
      v.object({
        field: v.string(),
        label: v.string(),
        before: v.optional(quantity),
        after: v.optional(quantity),
        verdict: v.string(),
        work: v.string(),
      }),
    ),
    missing: v.array(v.string()),
  }),
  missing: v.array(v.string()),
  verdict: v.array(sentence),
  charts: v.array(chart),
  working: v.array(step),
  cases: v.array(
    v.object({
      name: v.string(),
      answer: sentence,
      payback,
      hangs_on_spare: v.boolean(),
      break_evens: v.array(v.object({ path: v.string(), label: v.string(), sentence, pays_now: v.boolean() })),
      not_counted: v.array(v.string()),
      charts: v.array(chart),
      working: v.array(step),
    }),
  ),
  troubles: v.array(
    v.object({
      label: v.string(),
      looked_at: v.string(),
      ask: v.string(),
      explained: v.optional(v.boolean()),
    }),
  ),
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
export type GearPair = v.InferOutput<typeof gearPair>;
export type Compare = v.InferOutput<typeof compare>;
export type Mechanism = v.InferOutput<typeof mechanism>;
