// Where every part stands and what it carries at a crank angle, from the engine's answer `mechanism`. Only poses are
// worked here (docs/api.md states them); forces and stresses are looked up between the engine's crank angles.
import type { Stage } from '../engine/contract';

export interface Contact {
  roller: number;
  /** Centre of the roller and contact point, m. */
  x: number;
  y: number;
  cx: number;
  cy: number;
  /** Direction of the force on the disc, rad. */
  direction: number;
  force: number;
  pressure: number;
}

const kTurn = 2 * Math.PI;
const wrap = (angle: number) => ((angle % kTurn) + kTurn) % kTurn;

export class Scene {
  readonly stage: Stage;
  readonly rollers: number;
  readonly pitch: number;
  /** Largest force and pressure of a lobe of a whole turn, as proved; and the force of the ring pitch that is drawn. */
  readonly mostForce: number;
  readonly mostPressure: number;
  readonly drawnForce: number;
  readonly mostPin: number;
  /** Force on an output pin by its angle from the crank, per disc, in equal steps of a turn. */
  #pinByAngle: Float64Array[];
  /** Turn of a roller since the crank stood at it, by the angle between, per disc; the last entry is a whole turn's. */
  #rolled: Float64Array[];

  constructor(stage: Stage) {
    this.stage = stage;
    const g = stage.geometry;
    this.rollers = g.lobes + 1;
    this.pitch = kTurn / this.rollers;
    const most = (pick: (disc: Stage['discs'][number]) => number[][]) =>
      stage.discs.reduce((all, disc) => pick(disc).reduce((m, row) => row.reduce((a, b) => Math.max(a, b), m), all), 0);
    this.mostForce = stage.largest.force;
    this.mostPressure = stage.largest.pressure;
    this.drawnForce = most((disc) => disc.forces);
    this.mostPin = most((disc) => disc.pin_forces);
    this.#pinByAngle = stage.discs.map((_, disc) => this.#spreadPins(disc));
    this.#rolled = stage.discs.map((_, disc) => this.#spreadRolling(disc));
  }

  discAngle(crank: number, disc: number): number {
    return crank + (kTurn * disc) / this.stage.geometry.discs;
  }
  centre(crank: number, disc: number): [number, number] {
    const f = this.discAngle(crank, disc);
    const e = this.stage.geometry.eccentricity;
    return [e * Math.cos(f), e * Math.sin(f)];
  }
  output(crank: number): number {
    return -crank / this.stage.geometry.lobes;
  }
  /** Turn of the disc's profile against its holes. */
  profileTurn(disc: number): number {
    const g = this.stage.geometry;
    return (-kTurn * disc) / (g.discs * g.lobes);
  }
  /** How far the rolling elements between disc and eccentric have gone round, rad: half way between the two. */
  cageTurn(crank: number): number {
    return (crank + this.output(crank)) / 2;
  }
  rollerCentre(roller: number): [number, number] {
    const { pitch_radius: R } = this.stage.geometry;
    return [R * Math.cos(roller * this.pitch), R * Math.sin(roller * this.pitch)];
  }
  pinCentre(crank: number, pin: number): [number, number] {
    const g = this.stage.geometry;
    const angle = this.output(crank) + (kTurn * pin) / g.pins;
    return [g.pin_circle_radius * Math.cos(angle), g.pin_circle_radius * Math.sin(angle)];
  }

  /** Between which of the engine's crank angles this one lies, and how many ring pitches were taken off it. */
  #between(crank: number): { low: number; high: number; part: number; shift: number } {
    const angles = this.stage.crank_angles;
    const turns = Math.floor(crank / this.pitch);
    const rest = crank - turns * this.pitch;
    const shift = ((turns % this.rollers) + this.rollers) % this.rollers;
    let low = 0;
    while (low + 1 < angles.length && angles[low + 1]! <= rest) low++;
    const from = angles[low] ?? 0;
    const closed = low + 1 >= angles.length;
    const to = closed ? this.pitch + (angles[0] ?? 0) : angles[low + 1]!;
    return { low, high: closed ? -1 : low + 1, part: to > from ? (rest - from) / (to - from) : 0, shift };
  }

  /** Contacts of a disc that carry load. */
  contacts(crank: number, disc: number): Contact[] {
    const data = this.stage.discs[disc];
    if (!data) return [];
    const { low, high, part, shift } = this.#between(crank);
    const r = this.stage.geometry.roller_radius;
    const Z = this.rollers;
    const out: Contact[] = [];
    const at = (table: number[][], roller: number) => {
      const index = (((roller - shift) % Z) + Z) % Z;
      const a = table[low]?.[index] ?? 0;
      // Behind the last angle the pattern goes on one roller further.
      const b = high >= 0 ? (table[high]?.[index] ?? a) : (table[0]?.[(index - 1 + Z) % Z] ?? a);
      return [a, b] as const;
    };
    for (let roller = 0; roller < Z; ++roller) {
      const [f0, f1] = at(data.forces, roller);
      const force = f0 + (f1 - f0) * part;
      if (force <= 0) continue;
      const [p0, p1] = at(data.pressures, roller);
      const [d0, d1] = at(data.directions, roller);
      // Directions are given in the frame of the solved pitch; they turn with the shift, and the short way round.
      const step = wrap(d1 + (high >= 0 ? 0 : this.pitch) - d0 + Math.PI) - Math.PI;
      const direction = d0 + step * part + shift * this.pitch;
      const [x, y] = this.rollerCentre(roller);
      out.push({
        roller,
        x,
        y,
        cx: x + r * Math.cos(direction),
        cy: y + r * Math.sin(direction),
        direction,
        force,
        pressure: p0 + (p1 - p0) * part,
      });
    }
    return out;
  }

  pinForce(crank: number, disc: number, pin: number): number {
    const list = this.#pinByAngle[disc];
    if (!list) return 0;
    const beta = wrap(this.output(crank) + (kTurn * pin) / this.stage.geometry.pins - this.discAngle(crank, disc));
    const at = (beta / kTurn) * list.length;
    const low = Math.floor(at) % list.length;
    const high = (low + 1) % list.length;
    return list[low]! + (list[high]! - list[low]!) * (at - Math.floor(at));
  }

  /** How far a roller has turned on its pin, rolled by a disc, rad. */
  rollerTurn(crank: number, roller: number, disc: number): number {
    const list = this.#rolled[disc];
    if (!list) return 0;
    const angle = this.discAngle(crank, disc) - roller * this.pitch;
    const turns = Math.floor(angle / kTurn);
    const at = (angle / kTurn - turns) * (list.length - 1);
    const low = Math.floor(at);
    return turns * list.at(-1)! + list[low]! + ((list[low + 1] ?? list[low]!) - list[low]!) * (at - low);
  }

  /** The pins turn slowly while the load turns with the crank: their force is a function of the angle between. */
  #spreadPins(disc: number): Float64Array {
    const { pins } = this.stage.geometry;
    return spread(
      this.stage.crank_angles.flatMap((crank, row) =>
        (this.stage.discs[disc]?.pin_forces[row] ?? []).map((force, pin): [number, number] => [
          this.output(crank) + (kTurn * pin) / pins - this.discAngle(crank, disc),
          force,
        ]),
      ),
    );
  }

  #spreadRolling(disc: number): Float64Array {
    const rates = spread(
      this.stage.crank_angles.flatMap((crank, row) =>
        (this.stage.discs[disc]?.rolling[row] ?? []).map((rate, roller): [number, number] => [
          this.discAngle(crank, disc) - roller * this.pitch,
          rate,
        ]),
      ),
    );
    const turned = new Float64Array(rates.length + 1);
    const step = kTurn / rates.length;
    for (let i = 0; i < rates.length; ++i)
      turned[i + 1] = turned[i]! + (step * (rates[i]! + rates[(i + 1) % rates.length]!)) / 2;
    return turned;
  }
}

/** Samples (angle, value) of a periodic function -> its values in equal steps of a turn. */
function spread(list: [number, number][]): Float64Array {
  const out = new Float64Array(180);
  const samples = list.map(([angle, value]): [number, number] => [wrap(angle), value]).sort((a, b) => a[0] - b[0]);
  const first = samples[0];
  const last = samples.at(-1);
  if (!first || !last) return out;
  const around: [number, number][] = [[last[0] - kTurn, last[1]], ...samples, [first[0] + kTurn, first[1]]];
  let at = 0;
  for (let i = 0; i < out.length; ++i) {
    const angle = (kTurn * i) / out.length;
    while (at + 2 < around.length && around[at + 1]![0] <= angle) at++;
    const [a0, v0] = around[at]!;
    const [a1, v1] = around[at + 1]!;
    out[i] = a1 > a0 ? v0 + ((v1 - v0) * (angle - a0)) / (a1 - a0) : v0;
  }
  return out;
}
