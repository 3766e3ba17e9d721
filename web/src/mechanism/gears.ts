// Draws a gear pair on a canvas from the engine's answer `gear_pair`.
import type { GearPair } from '../engine/contract';
import type { Palette } from './palette';

const kTurn = 2 * Math.PI;
const kRim = 1.12; // outside of a ring with internal teeth as drawn, over its tip radius

export class GearPainter {
  #gears: GearPair;
  #palette: Palette;
  #pinion: Path2D;
  #wheel: Path2D;
  #most: number;

  constructor(gears: GearPair, palette: Palette) {
    this.#gears = gears;
    this.#palette = palette;
    this.#pinion = gearPath(gears.pinion_outline, gears.pair.pinion_teeth, 0);
    const rim = gears.pair.internal ? kRim * gears.pair.wheel_radii.tip : 0;
    this.#wheel = gearPath(gears.wheel_outline, gears.pair.wheel_teeth, rim);
    this.#most = mostForce(gears);
  }

  /** @returns how many tooth pairs carry load */
  paint(
    ctx: CanvasRenderingContext2D,
    view: { width: number; height: number; scale: number; near: boolean },
    output: number,
    ratio: number,
  ): number {
    const { pair, pinion_angles, pinion_tooth_angles, wheel_tooth_angles, wheel_centre } = this.#gears;
    const p = this.#palette;
    const centre = wheel_centre[0] ?? 0;
    const count = pinion_angles.length;
    const pitch = kTurn / pair.pinion_teeth;
    const pinionAngle = Math.abs(output) * (pair.wheel_teeth / pair.pinion_teeth);
    const turns = Math.floor(pinionAngle / pitch);
    const rest = pinionAngle - turns * pitch;
    const at = Math.min(count - 1, Math.floor((rest / pitch) * count));
    // Between the engine's instants the teeth go on turning; the load is that of the last instant.
    const on = turns * pitch + rest - (pinion_angles[at] ?? 0);
    const [left, right] = across(this.#gears);
    // All of it, or near the pitch point where the teeth meet.
    const middle = view.near ? pair.pinion_radii.pitch : (left + right) / 2;
    const px = 1 / view.scale;
    ctx.setTransform(ratio, 0, 0, ratio, 0, 0);
    ctx.clearRect(0, 0, view.width, view.height);
    ctx.setTransform(
      ratio * view.scale,
      0,
      0,
      -ratio * view.scale,
      ratio * (view.width / 2 - view.scale * middle),
      (ratio * view.height) / 2,
    );
    ctx.lineJoin = 'round';
    ctx.lineWidth = p.line * px;
    const gear = (path: Path2D, x: number, angle: number, fill: string, bore: number) => {
      ctx.save();
      ctx.translate(x, 0);
      ctx.rotate(angle);
      ctx.fillStyle = fill;
      ctx.fill(path, 'evenodd');
      ctx.strokeStyle = p.ink2;
      ctx.stroke(path);
      if (bore <= 0) return ctx.restore();
      ctx.beginPath();
      ctx.arc(0, 0, bore, 0, kTurn);
      ctx.fillStyle = p.paper;
      ctx.fill();
      ctx.stroke();
      ctx.beginPath();
      ctx.arc(bore * 0.7, 0, bore * 0.08, 0, kTurn);
      ctx.fillStyle = p.ink;
      ctx.fill();
      ctx.restore();
    };
    const wheelOn = (on * pair.pinion_teeth) / pair.wheel_teeth;
    const wheelAngle = (wheel_tooth_angles[at] ?? 0) + (pair.internal ? wheelOn : -wheelOn);
    const wheelBore = pair.internal ? 0 : 0.35 * pair.wheel_radii.tip;
    gear(this.#wheel, centre, wheelAngle, p.steel, wheelBore);
    gear(this.#pinion, 0, (pinion_tooth_angles[at] ?? 0) + on, p.steel2, 0.4 * pair.pinion_radii.tip);
    const length = 0.35 * pair.pinion_radii.tip + 0.12 * pair.wheel_radii.tip;
    const direction = Math.PI / 2 - pair.working_angle; // of the force on the wheel: along the line of action
    const contacts = this.#gears.contacts[at] ?? [];
    ctx.strokeStyle = ctx.fillStyle = p.force;
    for (const contact of contacts) {
      if (!contact.point || contact.force <= 0) continue;
      const [x = 0, y = 0] = contact.point;
      const reach = (contact.force / this.#most) * length;
      const c = Math.cos(direction);
      const s = Math.sin(direction);
      const head = Math.min(8 * px, 0.6 * reach);
      ctx.lineWidth = 1.8 * p.line * px;
      ctx.beginPath();
      ctx.moveTo(x, y);
      ctx.lineTo(x + (reach - 0.7 * head) * c, y + (reach - 0.7 * head) * s);
      ctx.stroke();
      ctx.beginPath();
      ctx.moveTo(x + reach * c, y + reach * s);
      ctx.lineTo(x + (reach - head) * c - 0.4 * head * s, y + (reach - head) * s + 0.4 * head * c);
      ctx.lineTo(x + (reach - head) * c + 0.4 * head * s, y + (reach - head) * s - 0.4 * head * c);
      ctx.fill();
    }
    return contacts.filter((contact) => contact.force > 0).length;
  }
}

/** Largest normal force of one tooth pair, N. */
export const mostForce = (gears: GearPair): number =>
  Math.max(...gears.contacts.flatMap((list) => list.map((contact) => contact.force)));

/** From where to where the pair reaches along the line of centres, m. */
export function across({ pair, wheel_centre }: GearPair): [number, number] {
  const centre = wheel_centre[0] ?? 0;
  const rim = pair.internal ? kRim : 1;
  return [
    Math.min(-pair.pinion_radii.tip, centre - rim * pair.wheel_radii.tip),
    Math.max(pair.pinion_radii.tip, centre + rim * pair.wheel_radii.tip),
  ];
}

/** A whole gear from the outline of one tooth, its centre on the x axis. */
function gearPath(outline: number[][], teeth: number, rim: number): Path2D {
  const path = new Path2D();
  if (rim > 0) path.arc(0, 0, rim, 0, kTurn);
  for (let tooth = 0; tooth < teeth; ++tooth) {
    const angle = (kTurn * tooth) / teeth;
    const c = Math.cos(angle);
    const s = Math.sin(angle);
    outline.forEach(([x = 0, y = 0], index) => {
      if (tooth === 0 && index === 0) path.moveTo(c * x - s * y, s * x + c * y);
      else path.lineTo(c * x - s * y, s * x + c * y);
    });
  }
  path.closePath();
  return path;
}
