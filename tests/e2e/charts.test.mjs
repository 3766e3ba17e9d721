// Every example: each finding shows a chart, is one figure against one limit, or cannot be judged and says what is missing; all figures can be drawn.
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { readFileSync, readdirSync } from 'node:fs';
import { createRequire } from 'node:module';
import { describe, it } from 'node:test';
import { binary } from './page.mjs';

// What stands on one figure against one limit has nothing to draw.
const unplotted = new Set(['place', 'service']);
const root = new URL('../../', import.meta.url);
const { parse } = createRequire(new URL('web/package.json', root))('yaml');
const enquiries = ['examples/', 'examples/machines/'].flatMap((folder) =>
  readdirSync(new URL(folder, root))
    .filter((name) => name.endsWith('.yaml'))
    .map((name) => folder + name),
);

describe('charts of every example', { timeout: 600_000 }, () => {
  for (const name of enquiries)
    it(name, () => {
      const enquiry = parse(readFileSync(new URL(name, root), 'utf8'), { schema: 'failsafe' });
      if (!enquiry.machine) return;
      const input = JSON.stringify({ call: 'prove', input: { enquiry } });
      const answer = JSON.parse(spawnSync(binary, ['api'], { input, maxBuffer: 1 << 28 }).stdout.toString());
      if (answer.errors) return assert.equal(answer.errors[0].kind, 'model', answer.errors[0].message); // no build serves
      for (const finding of answer.findings) {
        if (finding.charts.length === 0 && !unplotted.has(finding.id)) {
          assert.equal(finding.verdict, 'cannot_be_judged', finding.id);
          assert.ok(finding.missing.length > 0, finding.id);
        }
        for (const chart of finding.charts)
          for (const series of chart.series) {
            const where = `${finding.id}, ${chart.id}, ${series.name.si}`;
            assert.doesNotMatch(series.name.si + series.name.us, /\{\}/, where);
            assert.ok(series.x.length > 0 && series.x.length === series.y.length, where);
            for (const value of [...series.x, ...series.y]) assert.ok(Number.isFinite(value), where); // null: not finite
          }
      }
    });
});
