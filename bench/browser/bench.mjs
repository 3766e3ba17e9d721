// Speed of the workspace in the real browser: node bench/browser/bench.mjs
//   first useful paint   navigation to the enquiry's sentences and the findings on the screen
//   redraw               a value moved to all findings redrawn, p50 and p95
//   frame                script time of an animation frame while the mechanism runs, p50 and p95, and frames a second
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openWorkspace, startBrowser, startServer } from '../../tests/e2e/page.mjs';

const quantile = (list, q) => [...list].sort((a, b) => a - b)[Math.min(list.length - 1, Math.floor(q * list.length))];
const ms = (value) => `${value.toFixed(1)} ms`;

/** In the page: script time of every animation frame, all callbacks of a frame together, in `frames_`. */
function countFrames() {
  const frames = (globalThis.frames_ = []);
  const plain = requestAnimationFrame;
  let at = 0;
  globalThis.requestAnimationFrame = (callback) =>
    plain((now) => {
      const start = performance.now();
      callback(now);
      const spent = performance.now() - start;
      if (now === at) frames[frames.length - 1] += spent;
      else frames.push(spent);
      at = now;
    });
}

/** Processor time of the page's main thread since its start, ms: what a loaded machine does not stretch. */
async function mainThread(context, page) {
  const session = await context.newCDPSession(page);
  await session.send('Performance.enable', { timeDomain: 'threadTicks' });
  return async () => {
    const { metrics } = await session.send('Performance.getMetrics');
    return 1000 * metrics.find((metric) => metric.name === 'TaskDuration').value;
  };
}

/** The demo with a disc of 89 lobes. */
function manyLobes() {
  const demo = readFileSync(new URL('../../examples/inclined_cullet_conveyor.yaml', import.meta.url), 'utf8');
  const file = join(mkdtempSync(join(tmpdir(), 'lobewise-')), 'many_lobes.yaml');
  writeFileSync(file, `${demo}\nbuild: {frame: ring-265, lobes: 89}\n`);
  return file;
}

const server = process.argv[2] ? { url: process.argv[2], stop() {} } : await startServer();
const browser = await startBrowser();
try {
  const paints = [];
  const spent = [];
  const useful = [];
  for (let i = 0; i < 5; ++i) {
    const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
    const page = await context.newPage();
    const busy = await mainThread(context, page);
    await page.goto(server.url);
    await page.locator('#evidence .ledger').waitFor();
    useful.push(await page.evaluate(() => performance.now()));
    paints.push(await page.evaluate(() => performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? NaN));
    spent.push(await busy());
    await context.close();
  }
  console.log(`first paint (sentences)        ${ms(quantile(paints, 0.5))} median of ${paints.length}`);
  console.log(`first findings, at the latest  ${ms(quantile(useful, 0.5))} median of ${useful.length}`);

  console.log(`  processor of the page's thread ${ms(quantile(spent, 0.5))}`);

  const { page, context } = await openWorkspace(browser, server.url);
  const busy = await mainThread(context, page);
  await page.waitForTimeout(8000);
  // Up and down about the demo's value, each change waited for: from the change to the frame that shows its findings; then
  // a walk of one step after the other, which meets torques whose mesh nobody has solved yet.
  for (const [name, key] of [
    ['to and fro', (i) => (i % 2 === 0 ? 'ArrowUp' : 'ArrowDown')],
    ['one walk', () => 'ArrowUp'],
  ]) {
    const before = await busy();
    const redraw = await page.evaluate(
      async (keys) => {
        const value = document.querySelector('[data-path="machine.belt_conveyor.mass_flow"]');
        const times = [];
        for (let i = 0; i < 60; ++i) {
          const start = performance.now();
          const seen = new Promise((resolve) => {
            const observer = new MutationObserver(() => {
              observer.disconnect();
              resolve();
            });
            observer.observe(document.querySelector('.ledger'), {
              subtree: true,
              characterData: true,
              childList: true,
            });
          });
          value.dispatchEvent(new KeyboardEvent('keydown', { key: keys[i], bubbles: true }));
          await seen;
          await new Promise(requestAnimationFrame);
          if (i >= 10) times.push(performance.now() - start);
        }
        return times;
      },
      Array.from({ length: 60 }, (_, i) => key(i)),
    );
    console.log(
      `value moved -> all findings    p50 ${ms(quantile(redraw, 0.5))}, p95 ${ms(quantile(redraw, 0.95))} (${name})`,
    );
    console.log(`  processor of the page's thread ${ms(((await busy()) - before) / 60)} a change, mean`);
  }

  await context.close();

  for (const file of [undefined, manyLobes()]) {
    const slow = file ? await startServer(file) : server;
    const { page, context } = await openWorkspace(browser, slow.url, {}, countFrames);
    await page.locator('#mechanism canvas').waitFor();
    if (file) await page.waitForFunction(() => /of 89/.test(document.querySelector('#mechanism .loaded')?.textContent));
    await page.waitForTimeout(3000);
    await page.getByRole('button', { name: 'Run', exact: true }).click();
    await page.evaluate(() => (globalThis.frames_.length = 0));
    await page.waitForTimeout(5000);
    const frames = await page.evaluate(() => globalThis.frames_);
    const lobes = (await page.locator('#mechanism .loaded').textContent()).trim();
    console.log(
      `script per frame               p50 ${ms(quantile(frames, 0.5))}, p95 ${ms(quantile(frames, 0.95))} (${lobes})`,
    );
    console.log(`frames a second                ${(frames.length / 5).toFixed(1)}`);
    await context.close();
    if (file) slow.stop();
  }
} finally {
  await browser.close();
  server.stop();
}
