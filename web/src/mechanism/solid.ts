// The stage as solid parts, sectioned and taken apart along its axis; loaded only when it is asked for.
import * as THREE from 'three';
import { OrbitControls } from 'three/examples/jsm/controls/OrbitControls.js';
import type { Palette } from './palette';
import type { Scene as Stage } from './scene';

const kTurn = 2 * Math.PI;
const kSection = 0.75; // share of the ring that is drawn; the rest is cut away

export class Solid {
  #renderer: THREE.WebGLRenderer;
  #scene = new THREE.Scene();
  #camera = new THREE.PerspectiveCamera(26, 1, 0.01, 100);
  #controls: OrbitControls;
  #stage: Stage;
  #discs: THREE.Group[] = [];
  #rollers: THREE.InstancedMesh;
  #shaft = new THREE.Group();
  #output = new THREE.Group();
  #ring = new THREE.Group();
  /** Lengths are in pitch radii: the parts of a small and of a large frame fill the picture alike. */
  #unit: number;
  #apart: number;

  constructor(canvas: HTMLCanvasElement, stage: Stage, palette: Palette) {
    this.#stage = stage;
    const g = stage.stage.geometry;
    this.#unit = 1 / g.pitch_radius;
    const s = this.#unit;
    const width = g.width * s;
    const gap = 0.25 * width;
    this.#renderer = new THREE.WebGLRenderer({ canvas, antialias: true, alpha: true });
    this.#controls = new OrbitControls(this.#camera, canvas);
    this.#controls.enableDamping = true;
    this.#controls.enablePan = false;
    this.#controls.minDistance = 2.5;
    this.#controls.maxDistance = 16;
    this.#camera.position.set(-3.9, 2.4, -5);

    this.#scene.add(new THREE.HemisphereLight(0xffffff, 0x8a948e, 2.1));
    const sun = new THREE.DirectionalLight(0xffffff, 1.7);
    sun.position.set(-3, 5, -4);
    this.#scene.add(sun);

    const paint = (colour: string) =>
      new THREE.MeshStandardMaterial({ color: colour, roughness: 0.72, metalness: 0.05, side: THREE.DoubleSide });
    const steel = paint(palette.steel2);
    const pale = paint(palette.steel);
    const dark = paint(palette.steel3);
    const line = new THREE.LineBasicMaterial({ color: palette.ink2, transparent: true, opacity: 0.75 });
    const solid = (geometry: THREE.BufferGeometry, material: THREE.Material, sharp = 35) => {
      const group = new THREE.Group();
      group.add(
        new THREE.Mesh(geometry, material),
        new THREE.LineSegments(new THREE.EdgesGeometry(geometry, sharp), line),
      );
      return group;
    };
    /** Along the axis, from `from` to `from + depth`. */
    const extrude = (shape: THREE.Shape, depth: number, from: number) => {
      const geometry = new THREE.ExtrudeGeometry(shape, { depth, bevelEnabled: false, curveSegments: 64 });
      geometry.translate(0, 0, from);
      return geometry;
    };
    const cylinder = (radius: number, depth: number, from: number, segments = 40) => {
      const geometry = new THREE.CylinderGeometry(radius, radius, depth, segments);
      geometry.rotateX(Math.PI / 2);
      geometry.translate(0, 0, from + depth / 2);
      return geometry;
    };

    const length = g.discs * width + (g.discs - 1) * gap;
    const front = -length / 2;

    // Discs.
    for (let disc = 0; disc < g.discs; ++disc) {
      const turn = stage.profileTurn(disc);
      const shape = new THREE.Shape(
        stage.stage.outline.map(([x = 0, y = 0]) =>
          new THREE.Vector2(x * s, y * s).rotateAround(new THREE.Vector2(), turn),
        ),
      );
      const hole = (x: number, y: number, radius: number) => {
        const path = new THREE.Path();
        path.absarc(x, y, radius, 0, kTurn, true);
        shape.holes.push(path);
      };
      for (let pin = 0; pin < g.pins; ++pin) {
        const angle = (kTurn * pin) / g.pins;
        hole(g.pin_circle_radius * s * Math.cos(angle), g.pin_circle_radius * s * Math.sin(angle), g.hole_radius * s);
      }
      hole(0, 0, g.bore_radius * s);
      const from = front + disc * (width + gap);
      const group = solid(
        extrude(shape, width, from),
        paint(palette.discs[disc % palette.discs.length] ?? palette.steel),
      );
      this.#discs.push(group);
      this.#scene.add(group);
    }

    // Ring, cut open, with its rollers.
    const outer = 1 + 1.3 * g.roller_radius * s + 0.09;
    const ringShape = new THREE.Shape();
    const cut = kTurn * kSection;
    const start = Math.PI * 0.62;
    ringShape.absarc(0, 0, outer, start, start + cut, false);
    ringShape.absarc(0, 0, 1 + 0.2 * g.roller_radius * s, start + cut, start, true);
    this.#ring.add(solid(extrude(ringShape, length + 2 * gap, front - gap), steel));
    this.#rollers = new THREE.InstancedMesh(
      cylinder(g.roller_radius * s, length + 1.4 * gap, front - 0.7 * gap, 20),
      pale,
      stage.rollers,
    );
    this.#ring.add(this.#rollers);
    this.#scene.add(this.#ring);

    // Input shaft with an eccentric for every disc.
    const shaftRadius = g.input_shaft_radius * s;
    this.#shaft.add(solid(cylinder(shaftRadius, length + 1.5, front - 1.2), dark));
    const key = new THREE.BoxGeometry(0.09, 0.05, 0.45);
    key.translate(shaftRadius, 0, front - 0.9);
    this.#shaft.add(solid(key, steel));
    for (let disc = 0; disc < g.discs; ++disc) {
      const [x, y] = stage.centre(0, disc);
      const geometry = cylinder(
        (g.bore_radius - 2 * g.bearing_roller_radius) * s,
        width,
        front + disc * (width + gap),
        48,
      );
      geometry.translate(x * s, y * s, 0);
      this.#shaft.add(solid(geometry, steel));
    }
    this.#scene.add(this.#shaft);

    // Output flange, shaft and pins.
    const back = -front + gap;
    const flange = Math.max(0.14, 0.6 * width);
    this.#output.add(solid(cylinder((g.pin_circle_radius + 1.6 * g.pin_radius) * s, flange, back, 64), steel));
    this.#output.add(solid(cylinder(0.34, 1.25, back + flange, 48), dark));
    for (let pin = 0; pin < g.pins; ++pin) {
      const angle = (kTurn * pin) / g.pins;
      const place = (geometry: THREE.BufferGeometry) =>
        geometry.translate(g.pin_circle_radius * s * Math.cos(angle), g.pin_circle_radius * s * Math.sin(angle), 0);
      this.#output.add(solid(place(cylinder(g.pin_radius * s, length + gap, front, 24)), pale));
    }
    this.#scene.add(this.#output);
    this.#apart = length + 0.85;
  }

  resize(width: number, height: number, ratio: number): void {
    this.#renderer.setPixelRatio(ratio);
    this.#renderer.setSize(width, height, false);
    this.#camera.aspect = width / Math.max(1, height);
    this.#camera.updateProjectionMatrix();
  }

  /** @param explode  0 assembled … 1 taken apart */
  draw(crank: number, explode: number): void {
    const stage = this.#stage;
    const s = this.#unit;
    const step = explode * this.#apart;
    const output = stage.output(crank);
    const middle = (this.#discs.length - 1) / 2;
    this.#discs.forEach((group, disc) => {
      const [x, y] = stage.centre(crank, disc);
      group.position.set(x * s, y * s, (disc - middle) * 0.8 * step + 0.55 * step);
      group.rotation.z = output;
    });
    this.#ring.position.z = -0.75 * step;
    this.#shaft.rotation.z = crank;
    this.#shaft.position.z = -1.75 * step;
    this.#output.rotation.z = output;
    this.#output.position.z = 1.75 * step;
    const matrix = new THREE.Matrix4();
    for (let roller = 0; roller < stage.rollers; ++roller) {
      const [x, y] = stage.rollerCentre(roller);
      matrix.makeRotationZ(stage.rollerTurn(crank, roller, 0)).setPosition(x * s, y * s, 0);
      this.#rollers.setMatrixAt(roller, matrix);
    }
    this.#rollers.instanceMatrix.needsUpdate = true;
    // Step back so that all of it stays in the picture.
    const wanted = 5.6 + 8 * explode;
    const distance = this.#camera.position.length();
    if (!this.#touched) this.#camera.position.multiplyScalar(wanted / distance);
    this.#controls.update();
    this.#renderer.render(this.#scene, this.#camera);
  }

  #touched = false;
  /** From now on the viewer's own distance stays. */
  touch(): void {
    this.#touched = true;
  }

  dispose(): void {
    this.#controls.dispose();
    this.#scene.traverse((object) => {
      if (object instanceof THREE.Mesh || object instanceof THREE.LineSegments) object.geometry.dispose();
    });
    this.#renderer.dispose();
  }
}
