// Draws a scene on a canvas. Everything that does not move relative to its part is kept as one path.
import type { DiscStress } from '../engine/contract';
import { stressRamp, type Palette } from './palette';
import type { Contact, Scene } from './scene';

export interface View {
  /** Pixels per metre, and where the shaft axis stands on the canvas, CSS pixels. */
  scale: number;
  x: number;
  y: number;
  width: number;
  height: number;
}

export type Part = { kind: 'roller' | 'disc' | 'eccentric' | 'pin' | 'ring'; index: number };

export interface Look {
  crank: number;
  /** Which discs are drawn; the last one lies on top. */
  discs: number[];
  highlight: Part | undefined;
  forces: boolean;
}

const kTurn = 2 * Math.PI;

/** Outside of the ring as drawn, m; the housing is no part of the answer. */
export const ringRadius = (g: { pitch_radius: number; roller_radius: number }): number =>
  g.pitch_radius + 1.3 * g.roller_radius + 0.05 * g.pitch_radius;

export class Painter {
  readonly scene: Scene;
  #stress: { crank: number; levels: [string, Path2D][] } | undefined;
  #discPaths: Path2D[] = [];
  #sprites: HTMLCanvasElement[] = [];
  #palette: Palette;

  constructor(scene: Scene, palette: Palette) {
    this.scene = scene;
    this.#palette = palette;
    const g = scene.stage.geometry;
    for (let disc = 0; disc < g.discs; ++disc) this.#discPaths.push(this.#discPath(disc));
    this.#sprites = Array.from({ length: 12 }, (_, level) => glow(palette.force, (level + 1) / 12));
  }

  /** The disc in the frame of its holes: outline, holes, bore. */
  #discPath(disc: number): Path2D {
    const { geometry: g, outline } = this.scene.stage;
    const turn = this.scene.profileTurn(disc);
    const c = Math.cos(turn);
    const s = Math.sin(turn);
    const path = new Path2D();
    outline.forEach(([x = 0, y = 0], index) => {
      const px = c * x - s * y;
      const py = s * x + c * y;
      if (index === 0) path.moveTo(px, py);
      else path.lineTo(px, py);
    });
    path.closePath();
    for (let pin = 0; pin < g.pins; ++pin) {
      const angle = (kTurn * pin) / g.pins;
      circle(path, g.pin_circle_radius * Math.cos(angle), g.pin_circle_radius * Math.sin(angle), g.hole_radius);
    }
    circle(path, 0, 0, g.bore_radius);
    return path;
  }

  /** Shades the first disc by the stress inside it while the crank stands where the stress was worked. */
  showStress(stress: DiscStress | undefined): void {
    if (!stress) {
      this.#stress = undefined;
      return;
    }
    const most = Math.max(...stress.mises);
    const levels = stressRamp(this.#palette).map((colour): [string, Path2D] => [colour, new Path2D()]);
    for (const cell of stress.cells) {
      const mean = cell.reduce((sum, point) => sum + (stress.mises[point] ?? 0), 0) / cell.length;
      // By the root: a few peaks at the contacts would leave everything else pale.
      const level = Math.min(levels.length - 1, Math.floor(Math.sqrt(mean / most) * levels.length));
      const path = levels[level]![1];
      cell.forEach((point, index) => {
        const [x = 0, y = 0] = stress.points[point] ?? [];
        if (index === 0) path.moveTo(x, y);
        else path.lineTo(x, y);
      });
      path.closePath();
    }
    this.#stress = { crank: stress.crank_angle, levels };
  }

  paint(ctx: CanvasRenderingContext2D, view: View, look: Look, ratio: number): Contact[] {
    const { scene } = this;
    const p = this.#palette;
    const g = scene.stage.geometry;
    const px = 1 / view.scale;
    ctx.setTransform(ratio, 0, 0, ratio, 0, 0);
    ctx.clearRect(0, 0, view.width, view.height);
    // Metres, y up.
    ctx.setTransform(ratio * view.scale, 0, 0, -ratio * view.scale, ratio * view.x, ratio * view.y);
    ctx.lineJoin = 'round';
    ctx.lineWidth = p.line * px;

    const on = (kind: Part['kind'], index = -1) =>
      look.highlight?.kind === kind && (look.highlight.index < 0 || index < 0 || look.highlight.index === index);

    // Ring.
    const outer = ringRadius(g);
    ctx.beginPath();
    ctx.arc(0, 0, outer, 0, kTurn);
    ctx.arc(0, 0, g.pitch_radius + 0.25 * g.roller_radius, 0, kTurn, true);
    ctx.fillStyle = on('ring') ? p.steel3 : p.steel2;
    ctx.fill();
    ctx.beginPath();
    ctx.arc(0, 0, outer, 0, kTurn);
    ctx.strokeStyle = p.steel3;
    ctx.stroke();

    const top = look.discs.at(-1) ?? 0;
    const contacts: Contact[] = [];

    // Rollers, turned by the rolling of the top disc.
    for (let roller = 0; roller < scene.rollers; ++roller) {
      const [x, y] = scene.rollerCentre(roller);
      const lit = on('roller', roller);
      ctx.beginPath();
      ctx.arc(x, y, g.roller_radius, 0, kTurn);
      ctx.fillStyle = lit ? p.known : p.steel;
      ctx.fill();
      ctx.strokeStyle = p.ink2;
      ctx.stroke();
      if (g.roller_radius * view.scale > 5) {
        const spin = scene.rollerTurn(look.crank, roller, top);
        ctx.beginPath();
        ctx.arc(x, y, g.ring_pin_radius, 0, kTurn);
        ctx.strokeStyle = p.steel3;
        ctx.stroke();
        ctx.beginPath();
        for (const half of [0, Math.PI]) {
          ctx.moveTo(
            x + 0.62 * g.roller_radius * Math.cos(spin + half),
            y + 0.62 * g.roller_radius * Math.sin(spin + half),
          );
          ctx.lineTo(
            x + 0.9 * g.roller_radius * Math.cos(spin + half),
            y + 0.9 * g.roller_radius * Math.sin(spin + half),
          );
        }
        ctx.stroke();
      }
    }

    // Discs, back to front.
    for (const disc of look.discs) {
      const [cx, cy] = scene.centre(look.crank, disc);
      ctx.save();
      ctx.translate(cx, cy);
      ctx.rotate(scene.output(look.crank));
      ctx.globalAlpha = disc === top ? 0.93 : 1;
      ctx.fillStyle = p.discs[disc % p.discs.length] ?? p.steel;
      ctx.fill(this.#discPaths[disc]!, 'evenodd');
      ctx.globalAlpha = 1;
      if (disc === 0 && this.#stress && Math.abs(this.#stress.crank - look.crank) < 1e-9) this.#shade(ctx, px);
      ctx.strokeStyle = on('disc', disc) ? p.known : p.ink2;
      ctx.lineWidth = (on('disc', disc) ? 2.5 : 1) * p.line * px;
      ctx.stroke(this.#discPaths[disc]!);
      // A mark on one lobe, to see how slowly the disc turns.
      const tip = scene.profileTurn(disc) + Math.PI / g.lobes;
      const at = g.pitch_radius - g.roller_radius - 2.2 * g.eccentricity;
      ctx.beginPath();
      ctx.arc(at * Math.cos(tip), at * Math.sin(tip), Math.max(2.2 * px, 0.012 * g.pitch_radius), 0, kTurn);
      ctx.fillStyle = p.ink;
      ctx.fill();
      ctx.restore();
      ctx.lineWidth = p.line * px;
    }

    this.#eccentric(ctx, look, px, on('eccentric'));
    this.#pins(ctx, look, on);

    if (look.forces) {
      for (const disc of look.discs) {
        const list = scene.contacts(look.crank, disc);
        if (!(disc === 0 && this.#stress)) this.#glow(ctx, list);
        this.#arrows(ctx, list, px, disc === top ? 1 : 0.45);
        if (disc === top) contacts.push(...list);
      }
      this.#pinArrows(ctx, look, px, top);
    }
    return contacts;
  }

  #shade(ctx: CanvasRenderingContext2D, px: number): void {
    ctx.save();
    ctx.rotate(this.scene.profileTurn(0));
    ctx.lineWidth = px; // closes the hairline gaps between neighbouring cells
    for (const [colour, path] of this.#stress?.levels ?? []) {
      ctx.fillStyle = ctx.strokeStyle = colour;
      ctx.fill(path);
      ctx.stroke(path);
    }
    ctx.restore();
  }

  #eccentric(ctx: CanvasRenderingContext2D, look: Look, px: number, lit: boolean): void {
    const p = this.#palette;
    const g = this.scene.stage.geometry;
    for (const disc of look.discs) {
      const [cx, cy] = this.scene.centre(look.crank, disc);
      // Rolling elements between bore and eccentric.
      const size = g.bearing_roller_radius;
      const circle = g.bore_radius - size;
      const inner = g.bore_radius - 2 * size;
      ctx.beginPath();
      ctx.arc(cx, cy, g.bore_radius, 0, kTurn);
      ctx.fillStyle = p.steel;
      ctx.fill();
      ctx.beginPath();
      const spin = this.scene.cageTurn(look.crank);
      for (let i = 0; i < g.bearing_rollers; ++i) {
        const a = spin + (kTurn * i) / g.bearing_rollers;
        ctx.moveTo(cx + circle * Math.cos(a) + size, cy + circle * Math.sin(a));
        ctx.arc(cx + circle * Math.cos(a), cy + circle * Math.sin(a), size, 0, kTurn);
      }
      ctx.strokeStyle = p.steel3;
      ctx.stroke();
      ctx.beginPath();
      ctx.arc(cx, cy, inner, 0, kTurn);
      ctx.fillStyle = lit ? p.known : p.steel2;
      ctx.fill();
      ctx.strokeStyle = p.ink2;
      ctx.stroke();
    }
    // Shaft with its key, and the crank's line.
    const shaft = g.input_shaft_radius;
    ctx.beginPath();
    ctx.arc(0, 0, shaft, 0, kTurn);
    ctx.fillStyle = p.paper;
    ctx.fill();
    ctx.strokeStyle = p.ink2;
    ctx.stroke();
    ctx.save();
    ctx.rotate(look.crank);
    ctx.fillStyle = p.ink;
    ctx.fillRect(shaft * 0.82, -0.1 * shaft, shaft * 0.34, 0.2 * shaft);
    ctx.beginPath();
    ctx.moveTo(0, 0);
    ctx.lineTo(shaft * 0.7, 0);
    ctx.lineWidth = 2.5 * this.#palette.line * px;
    ctx.strokeStyle = p.ink;
    ctx.stroke();
    ctx.restore();
    ctx.lineWidth = this.#palette.line * px;
    ctx.beginPath();
    ctx.arc(0, 0, 3 * px, 0, kTurn);
    ctx.fillStyle = p.ink;
    ctx.fill();
  }

  #pins(ctx: CanvasRenderingContext2D, look: Look, on: (kind: Part['kind'], index?: number) => boolean): void {
    const p = this.#palette;
    const g = this.scene.stage.geometry;
    for (let pin = 0; pin < g.pins; ++pin) {
      const [x, y] = this.scene.pinCentre(look.crank, pin);
      ctx.beginPath();
      ctx.arc(x, y, g.pin_radius, 0, kTurn);
      ctx.fillStyle = on('pin', pin) ? p.known : p.steel;
      ctx.fill();
      ctx.strokeStyle = p.ink2;
      ctx.stroke();
      ctx.beginPath();
      ctx.arc(x, y, g.output_pin_radius > 0 ? g.output_pin_radius : 0.62 * g.pin_radius, 0, kTurn);
      ctx.fillStyle = p.steel2;
      ctx.fill();
      ctx.stroke();
      if (pin === 0) {
        ctx.beginPath();
        ctx.arc(x, y, 0.2 * g.pin_radius, 0, kTurn);
        ctx.fillStyle = p.ink;
        ctx.fill();
      }
    }
  }

  /** Contact stress as shading, deepest where it is largest of all. */
  #glow(ctx: CanvasRenderingContext2D, contacts: Contact[]): void {
    const most = this.scene.mostPressure;
    const size = 1.25 * this.scene.stage.geometry.roller_radius;
    for (const contact of contacts) {
      const level = Math.min(this.#sprites.length - 1, Math.floor((contact.pressure / most) * this.#sprites.length));
      ctx.drawImage(this.#sprites[level]!, contact.cx - size, contact.cy - size, 2 * size, 2 * size);
    }
  }

  /** Length of an arrow of the largest contact force, m. */
  get arrow(): number {
    return 0.2 * this.scene.stage.geometry.pitch_radius;
  }

  #arrows(ctx: CanvasRenderingContext2D, contacts: Contact[], px: number, alpha: number): void {
    ctx.globalAlpha = alpha;
    ctx.strokeStyle = ctx.fillStyle = this.#palette.force;
    const head = 7 * px;
    for (const contact of contacts) {
      const length = (contact.force / this.scene.mostForce) * this.arrow;
      arrow(
        ctx,
        contact.cx,
        contact.cy,
        contact.direction,
        length,
        Math.min(head, 0.6 * length),
        1.6 * this.#palette.line * px,
      );
    }
    ctx.globalAlpha = 1;
  }

  #pinArrows(ctx: CanvasRenderingContext2D, look: Look, px: number, disc: number): void {
    if (this.scene.mostPin <= 0) return;
    const g = this.scene.stage.geometry;
    const f = this.scene.discAngle(look.crank, disc);
    ctx.strokeStyle = ctx.fillStyle = this.#palette.pin;
    for (let pin = 0; pin < g.pins; ++pin) {
      const force = this.scene.pinForce(look.crank, disc, pin);
      if (force <= 0) continue;
      const [x, y] = this.scene.pinCentre(look.crank, pin);
      // The wall of the hole presses on the pin along the crank's direction.
      const length = (force / this.scene.mostForce) * this.arrow;
      const [tx, ty] = [x - g.pin_radius * Math.cos(f), y - g.pin_radius * Math.sin(f)];
      arrow(ctx, tx, ty, f, length, Math.min(6 * px, 0.6 * length), 1.4 * this.#palette.line * px);
    }
  }

  /** The part under a point of the drawing, m. */
  partAt(x: number, y: number, look: Look): Part | undefined {
    const { scene } = this;
    const g = scene.stage.geometry;
    for (let pin = 0; pin < g.pins; ++pin) {
      const [px, py] = scene.pinCentre(look.crank, pin);
      if (Math.hypot(x - px, y - py) < g.pin_radius) return { kind: 'pin', index: pin };
    }
    for (let roller = 0; roller < scene.rollers; ++roller) {
      const [px, py] = scene.rollerCentre(roller);
      if (Math.hypot(x - px, y - py) < g.roller_radius) return { kind: 'roller', index: roller };
    }
    const radius = Math.hypot(x, y);
    for (const disc of [...look.discs].reverse()) {
      const [cx, cy] = scene.centre(look.crank, disc);
      if (Math.hypot(x - cx, y - cy) < g.bore_radius) return { kind: 'eccentric', index: -1 };
    }
    if (radius > g.pitch_radius) return radius < ringRadius(g) ? { kind: 'ring', index: -1 } : undefined;
    return { kind: 'disc', index: look.discs.at(-1) ?? 0 };
  }
}

function circle(path: Path2D, x: number, y: number, radius: number): void {
  path.moveTo(x + radius, y);
  path.arc(x, y, radius, 0, kTurn);
}

function arrow(
  ctx: CanvasRenderingContext2D,
  x: number,
  y: number,
  angle: number,
  length: number,
  head: number,
  width: number,
): void {
  const c = Math.cos(angle);
  const s = Math.sin(angle);
  const tx = x + length * c;
  const ty = y + length * s;
  ctx.lineWidth = width;
  ctx.beginPath();
  ctx.moveTo(x, y);
  ctx.lineTo(tx - 0.7 * head * c, ty - 0.7 * head * s);
  ctx.stroke();
  ctx.beginPath();
  ctx.moveTo(tx, ty);
  ctx.lineTo(tx - head * c - 0.4 * head * s, ty - head * s + 0.4 * head * c);
  ctx.lineTo(tx - head * c + 0.4 * head * s, ty - head * s - 0.4 * head * c);
  ctx.fill();
}

/** A soft spot of a colour (#rrggbb), kept as an image: gradients are too dear to make for every contact of every frame. */
function glow(colour: string, strength: number): HTMLCanvasElement {
  const size = 64;
  const canvas = document.createElement('canvas');
  canvas.width = canvas.height = size;
  const ctx = canvas.getContext('2d')!;
  const gradient = ctx.createRadialGradient(size / 2, size / 2, 0, size / 2, size / 2, size / 2);
  gradient.addColorStop(0, colour);
  gradient.addColorStop(0.3, `${colour}cc`);
  gradient.addColorStop(1, `${colour}00`);
  ctx.globalAlpha = 0.1 + 0.65 * strength;
  ctx.fillStyle = gradient;
  ctx.fillRect(0, 0, size, size);
  return canvas;
}
