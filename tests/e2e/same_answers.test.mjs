// Native and WebAssembly give the same answers. Their mathematical libraries differ in the last bits of sin, exp and
// pow. Closed forms keep that; the elastic contact stops correcting at 1e-5 and the simulated jam steps by its own error
// of about 1e-4, so that both may end a step earlier or later. A shown figure has four digits.
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { readFileSync, readdirSync } from 'node:fs';
import { createRequire } from 'node:module';
import { before, describe, it } from 'node:test';
import { fileURLToPath } from 'node:url';
import { loadEngine } from '../../web/tools/engine_in_node.mjs';

const root = new URL('../../', import.meta.url);
const { parse } = createRequire(new URL('web/package.json', root))('yaml');
const binary = process.env.LOBEWISE ?? fileURLToPath(new URL('build/release/bin/lobewise', root));
const kTolerance = 2e-4; // relative
const kCurve = 1e-3; // of a curve's largest value: a contact that only just touches may count a little earlier or later

const native = (call, input) =>
  JSON.parse(spawnSync(binary, ['api'], { input: JSON.stringify({ call, input }), maxBuffer: 1 << 28 }).stdout.toString());

/** Two curves; a simulated one may hold a step more or less, since its steps follow its errors. */
function compareCurves(a, b, path) {
  const most = Math.max(...a.y.map(Math.abs), 1e-300);
  const at = (curve, x) => {
    const right = Math.max(1, curve.x.findIndex((value) => value >= x - 1e-12 * Math.abs(x)));
    const [x0, x1, y0, y1] = [curve.x[right - 1], curve.x[right], curve.y[right - 1], curve.y[right]];
    return x1 === undefined || x1 === x0 ? y0 : y0 + ((y1 - y0) * (x - x0)) / (x1 - x0);
  };
  const steps = a.x.length === b.x.length;
  for (const [index, x] of a.x.entries()) {
    const off = Math.abs(a.y[index] - (steps ? b.y[index] : at(b, x))) / most;
    assert.ok(off <= (steps ? kCurve : 0.02), `${path}: ${off} of the largest value at ${x}`);
  }
}

/** Largest relative difference of two answers; throws where their shapes differ. */
function compare(a, b, path, worst) {
  if (Array.isArray(a?.x) && Array.isArray(a?.y)) {
    compareCurves(a, b, path);
  } else if (typeof a === 'number') {
    assert.equal(typeof b, 'number', path);
    const scale = Math.max(Math.abs(a), Math.abs(b));
    const off = scale < 1e-12 ? 0 : Math.abs(a - b) / scale;
    if (off > worst.off) Object.assign(worst, { off, path, a, b });
  } else if (a !== null && typeof a === 'object') {
    assert.deepEqual(Object.keys(a), Object.keys(b ?? {}), path);
    for (const key of Object.keys(a)) compare(a[key], b[key], `${path}.${key}`, worst);
  } else if (typeof a !== 'string' || !/\d/.test(a)) {
    assert.equal(a, b, path); // texts with figures are rounded: their numbers stand beside them
  }
}

describe('native and WebAssembly', { timeout: 600_000 }, () => {
  let wasm;
  before(async () => {
    wasm = await loadEngine();
  });
  const examples = readdirSync(new URL('examples/', root)).filter((name) => name.endsWith('.yaml') && !name.includes('range'));
  for (const name of examples)
    it(`agree on ${name}`, () => {
      const enquiry = parse(readFileSync(new URL(`examples/${name}`, root), 'utf8'), { schema: 'failsafe' });
      if (!enquiry.machine) return;
      const worst = { off: 0 };
      compare(native('prove', { enquiry, samples: 0 }), wasm('prove', { enquiry, samples: 0 }), 'prove', worst);
      assert.ok(worst.off <= kTolerance, JSON.stringify(worst));
    });
  it('agree on the candidates of the demo', () => {
    const enquiry = parse(readFileSync(new URL('examples/inclined_cullet_conveyor.yaml', root), 'utf8'), { schema: 'failsafe' });
    const worst = { off: 0 };
    compare(native('size', { enquiry }), wasm('size', { enquiry }), 'size', worst);
    assert.ok(worst.off <= kTolerance, JSON.stringify(worst));
  });
});
