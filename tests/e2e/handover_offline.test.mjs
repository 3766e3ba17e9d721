// The one-file hand-over as a customer's engineer meets it: opened from a disk, without any network.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { axe, binary, startBrowser } from './page.mjs';

const hostile = '</script><script>alert(1)</script><img src=x onerror=alert(2)> "\'&amp; <!-- ]]>';
const example = new URL('../../examples/inclined_cullet_conveyor.yaml', import.meta.url);

let browser, work;
before(async () => {
  browser = await startBrowser();
  work = mkdtempSync(join(tmpdir(), 'lobewise-'));
});
after(async () => {
  await browser?.close();
  rmSync(work, { recursive: true, force: true });
});

/** Writes a hand-over of the demo enquiry, with other lines if wanted. */
function handOver(name, lines = [], more = []) {
  const keys = lines.map((line) => line.split(':')[0]);
  const kept = readFileSync(example, 'utf8')
    .split('\n')
    .filter((line) => !keys.some((key) => line.startsWith(`${key}:`)));
  const enquiry = join(work, `${name}.yaml`);
  writeFileSync(enquiry, [...kept, ...lines].join('\n'));
  const out = join(work, name);
  execFileSync(binary, ['handover', enquiry, '--out', out, '--only', 'offline', '--date', '2026-11-25', ...more]);
  return join(out, 'offline.html');
}

/** The page, with everything that goes wrong in it and everything it asks for from outside. */
async function openFile(file, options = {}) {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, offline: true, ...options });
  const page = await context.newPage();
  const faults = [];
  page.on('pageerror', (error) => faults.push(error.message));
  page.on('dialog', (dialog) => {
    faults.push(`dialog: ${dialog.message()}`);
    void dialog.dismiss();
  });
  page.on('console', (message) => {
    if (message.type() === 'error') faults.push(message.text());
  });
  page.on('request', (request) => {
    const url = request.url();
    if (url !== `file://${file}` && !/^(blob|data):/.test(url)) faults.push(`asked for ${url}`);
  });
  page.setDefaultTimeout(120_000);
  await page.goto(`file://${file}`);
  await page.locator('#evidence .ledger').waitFor();
  return { page, context, faults };
}

const figureOf = (page, id) => page.locator(`#finding-${id}`).textContent();
const changed = (page, id, was) =>
  page.waitForFunction(([id, was]) => document.querySelector(`#finding-${id}`)?.textContent !== was, [id, was]);
async function pull(page, lever, value) {
  await page.locator(`#lever-${lever}`).evaluate((input, value) => {
    input.value = value;
    input.dispatchEvent(new Event('input', { bubbles: true }));
    input.dispatchEvent(new Event('change', { bubbles: true }));
  }, String(value));
}

describe('the hand-over in one file', { timeout: 240_000 }, () => {
  it('is small enough for a mail, and the same when made again', () => {
    const file = handOver('small');
    assert.ok(statSync(file).size < 3_000_000, `${statSync(file).size} bytes`);
    assert.deepEqual(readFileSync(handOver('again')), readFileSync(file));
  });

  it('moves load, speed and surroundings, and the verdicts follow', async () => {
    const { page, context, faults } = await openFile(handOver('levers'));
    assert.match(await page.locator('h1').textContent(), /Inclined cullet conveyor/);
    assert.equal(await page.locator('#finding-contact .verdict').first().textContent().then((text) => text.trim()), 'holds');
    const warm = await figureOf(page, 'heat');
    await pull(page, 'ambient', 58);
    await changed(page, 'heat', warm);
    const ratio = await figureOf(page, 'ratio');
    await pull(page, 'speed', 1.6);
    await changed(page, 'ratio', ratio);
    const contact = await figureOf(page, 'contact');
    await pull(page, 'load', 360);
    await changed(page, 'contact', contact);
    await page.locator('#finding-life .verdict.does_not_hold').first().waitFor();
    assert.match(await page.locator('header [role="status"]').textContent(), /changed/);
    await page.getByRole('button', { name: 'As handed over' }).click();
    await page.waitForFunction((was) => document.querySelector('#finding-heat')?.textContent === was, warm);
    assert.match(await page.locator('header [role="status"]').textContent(), /as handed over/);
    // The working of a finding is the one of these values.
    await page.locator('#finding-contact button').first().click();
    await page.locator('#finding-contact math').first().waitFor();
    // So are the charts, with the names of their lines and points.
    await page.locator('#finding-lubrication button').first().click();
    await page.locator('#finding-lubrication figure svg[role="img"]').first().waitFor();
    assert.match(await page.locator('#finding-lubrication .legend').first().textContent(), /cold start/);
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('turns', async () => {
    const { page, context, faults } = await openFile(handOver('turns'));
    await page.locator('#mechanism canvas').waitFor();
    const before = await page.locator('#mechanism').textContent();
    await page.getByRole('button', { name: 'Run', exact: true }).click();
    await page.waitForFunction((was) => document.querySelector('#mechanism').textContent !== was, before);
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('keeps the build that was handed over, of an own range too', async () => {
    const range = JSON.parse(execFileSync(binary, ['range'], { maxBuffer: 1 << 26 }).toString());
    range.name = 'Our own';
    for (const frame of range.frames) frame.name = frame.name.replace('ring-', 'own-');
    for (const pair of range.two_stage) {
      pair.frame = pair.frame.replace('ring-', 'own-');
      pair.first_frame = pair.first_frame.replace('ring-', 'own-');
    }
    const path = join(work, 'range.json');
    writeFileSync(path, JSON.stringify(range));
    const file = handOver('own', [], ['--range', path, '--frame', 'own-265', '--lobes', '31']);
    const { page, context, faults } = await openFile(file);
    assert.match(await page.locator('.offered').textContent(), /own-265, 31:1/);
    const contact = await figureOf(page, 'contact');
    await pull(page, 'load', 300);
    await changed(page, 'contact', contact);
    assert.match(await page.locator('.offered').textContent(), /own-265, 31:1/);
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('shows hostile text as text', async () => {
    const lines = ['title', 'customer', 'note'].map((key) => `${key}: ${JSON.stringify(hostile)}`);
    const { page, context, faults } = await openFile(handOver('hostile', lines));
    assert.equal((await page.locator('h1').textContent()).trim(), hostile);
    assert.equal((await page.locator('.customer').textContent()).trim(), hostile);
    assert.equal(await page.locator('main img').count(), 0);
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('has a policy that holds: no request leaves, no script gets in', async () => {
    const { page, context } = await openFile(handOver('policy'));
    const outcome = await page.evaluate(async () => {
      const refused = [];
      document.addEventListener('securitypolicyviolation', (event) => refused.push(event.effectiveDirective));
      const script = document.createElement('script');
      script.textContent = 'globalThis.gotIn = true';
      document.body.append(script);
      const image = new Image();
      image.src = 'https://example.invalid/x.png';
      const sent = await fetch('https://example.invalid/').then(
        () => true,
        () => false,
      );
      await new Promise((resolve) => setTimeout(resolve, 300));
      return { refused: refused.sort(), gotIn: globalThis.gotIn === true, sent };
    });
    assert.deepEqual(outcome, { refused: ['connect-src', 'img-src', 'script-src-elem'], gotIn: false, sent: false });
    await context.close();
  });

  for (const colorScheme of ['light', 'dark'])
    it(`has no accessibility fault that a tool can find, ${colorScheme}`, async () => {
      const { page, context } = await openFile(handOver(`axe-${colorScheme}`), { colorScheme });
      await page.evaluate(readFileSync(axe, 'utf8'));
      const { violations } = await page.evaluate(() => globalThis.axe.run(document, { resultTypes: ['violations'] }));
      assert.deepEqual(
        violations.map((each) => `${each.id}: ${each.nodes.map((node) => node.target.join(' ')).slice(0, 4)}`),
        [],
      );
      await context.close();
    });
});
