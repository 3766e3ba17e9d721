// Draws a gear pair on a canvas from the engine's answer `gears`.
import type { Gears } from '../engine/contract';
import type { Palette } from './palette';

const kTurn = 2 * Math.PI;

export class GearPainter {
  #gears: Gears;
  #palette: Palette;
  #pinion: Path2D;
  #wheel: Path2D;
  #most: number;

  constructor(gears: Gears, palette: Palette) {
    this.#gears = gears;
    this.#palette = palette;
    this.#pinion = gearPath(gears.pinion);
    this.#wheel = gearPath(gears.wheel);
    this.#most = Math.max(...gears.instants.flatMap((instant) => instant.contacts.map((contact) => contact.force)));
  }

  /** @returns how many tooth pairs carry load */
  paint(
    ctx: CanvasRenderingContext2D,
    view: { width: number; height: number; scale: number; near: boolean },
    output: number,
    ratio: number,
  ): number {
    const { pinion, wheel, instants, pitch, force_direction } = this.#gears;
    const p = this.#palette;
    const crank = Math.abs(output) * (wheel.teeth / pinion.teeth);
    const turns = Math.floor(crank / pitch);
    const instant = instants[Math.floor(((crank - turns * pitch) / pitch) * instants.length) % instants.length]!;
    // All of it, or near the pitch point between the two.
    const middle = view.near
      ? (wheel.centre[0]! * pinion.teeth) / (pinion.teeth + wheel.teeth)
      : (wheel.centre[0]! + wheel.tip_radius - pinion.tip_radius) / 2;
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
    const rest = crank - turns * pitch;
    const step = ((Math.floor((rest / pitch) * instants.length) % instants.length) / instants.length) * pitch;
    const gear = (path: Path2D, x: number, angle: number, fill: string, bore: number) => {
      ctx.save();
      ctx.translate(x, 0);
      ctx.rotate(angle);
      ctx.fillStyle = fill;
      ctx.fill(path);
      ctx.strokeStyle = p.ink2;
      ctx.stroke(path);
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
    // Between the engine's instants the teeth go on turning; the load is that of the last instant.
    const fine = rest - step;
    gear(
      this.#wheel,
      wheel.centre[0]!,
      instant.wheel_tooth_angle - (turns * pitch + fine) * (pinion.teeth / wheel.teeth),
      p.steel,
      0.35 * wheel.tip_radius,
    );
    gear(this.#pinion, 0, instant.pinion_tooth_angle + turns * pitch + fine, p.steel2, 0.4 * pinion.tip_radius);
    const length = 0.35 * pinion.tip_radius + 0.12 * wheel.tip_radius;
    ctx.strokeStyle = ctx.fillStyle = p.force;
    for (const contact of instant.contacts) {
      if (!contact.point || contact.force <= 0) continue;
      const [x = 0, y = 0] = contact.point;
      const reach = (contact.force / this.#most) * length;
      const c = Math.cos(force_direction);
      const s = Math.sin(force_direction);
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
    return instant.contacts.filter((contact) => contact.force > 0).length;
  }
}

/** A whole gear from the outline of one tooth, its centre on the x axis. */
function gearPath(gear: { teeth: number; outline: number[][] }): Path2D {
  const path = new Path2D();
  for (let tooth = 0; tooth < gear.teeth; ++tooth) {
    const angle = (kTurn * tooth) / gear.teeth;
    const c = Math.cos(angle);
    const s = Math.sin(angle);
    gear.outline.forEach(([x = 0, y = 0], index) => {
      if (tooth === 0 && index === 0) path.moveTo(c * x - s * y, s * x + c * y);
      else path.lineTo(c * x - s * y, s * x + c * y);
    });
  }
  path.closePath();
  return path;
}
