// Native and WebAssembly give the same answers. Their mathematical libraries differ in the last bits of sin, exp and
// pow; the largest difference that this grows to is some 1e-11 (docs/decisions/070-workspace.md).
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
/**
 * Relative; of a curve, against its largest value. What is followed in time is integrated to 1e-6: a last bit may decide
 * whether a step is taken or halved, so that two right answers lie as far apart as the errors of a few steps (seen: 1.2e-6).
 */
const FOLLOWED = 1e-5;
const tolerance = (path) => (/\.(shock|motion)\.(charts|working)\./.test(path) ? FOLLOWED : 1e-9);
/** The one curve of another finding that is followed in time. */
const PATH_OF_START = 'as the start goes through it';

const native = (call, input) =>
  JSON.parse(spawnSync(binary, ['api'], { input: JSON.stringify({ call, input }), maxBuffer: 1 << 28 }).stdout.toString());

/** Two curves: a force that dies away differs more against itself than against the largest. */
function compareCurves(a, b, path) {
  const mostOff = a.name?.si === PATH_OF_START ? FOLLOWED : tolerance(path);
  for (const axis of ['x', 'y']) {
    assert.equal(a[axis].length, b[axis].length, `${path}.${axis}`);
    const most = Math.max(...a[axis].map(Math.abs), 1e-300);
    for (const [index, value] of a[axis].entries()) {
      const off = Math.abs(value - b[axis][index]) / most;
      assert.ok(off <= mostOff, `${path}.${axis}[${index}]: ${off} of the largest value`);
    }
  }
}

/** Throws where two answers differ; a finding goes by its name in the path. */
function compare(a, b, path) {
  if (Array.isArray(a?.x) && Array.isArray(a?.y)) {
    compareCurves(a, b, path);
  } else if (typeof a === 'number') {
    assert.equal(typeof b, 'number', path);
    const scale = Math.max(Math.abs(a), Math.abs(b));
    const off = scale < 1e-12 ? 0 : Math.abs(a - b) / scale;
    assert.ok(off <= tolerance(path), `${path}: ${a} and ${b}, ${off} apart`);
  } else if (a !== null && typeof a === 'object') {
    assert.deepEqual(Object.keys(a), Object.keys(b ?? {}), path);
    for (const key of Object.keys(a)) compare(a[key], b[key], `${path}.${a[key]?.id ?? key}`);
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
      compare(native('prove', { enquiry, samples: 0 }), wasm('prove', { enquiry, samples: 0 }), 'prove');
    });
  const demo = parse(readFileSync(new URL('examples/inclined_cullet_conveyor.yaml', root), 'utf8'), { schema: 'failsafe' });
  for (const call of ['prove', 'size', 'compare'])
    it(`agree on ${call} of the demo, ranges and samples included`, () => {
      compare(native(call, { enquiry: demo }), wasm(call, { enquiry: demo }), call);
    });
});
