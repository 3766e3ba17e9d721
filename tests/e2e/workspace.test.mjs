// The workspace as its user meets it: in Debian's Chromium, served by the binary, with the engine in the page.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { readFileSync } from 'node:fs';
import { axe, openWorkspace, startBrowser, startServer } from './page.mjs';

let server, browser;
before(async () => {
  server = await startServer();
  browser = await startBrowser();
});
after(async () => {
  await browser?.close();
  server?.stop();
});

const workspace = async (options) => {
  const opened = await openWorkspace(browser, server.url, options);
  return { ...opened, value: (path) => opened.page.locator(`#enquiry [data-path="${path}"]`).first() };
};
const belt = 'machine.belt_conveyor';
// What stands on one figure against one limit has nothing to draw.
const unplotted = new Set(['finding-place', 'finding-service']);
const settled = (page, text) => page.waitForFunction((was) => document.querySelector('.ledger')?.textContent !== was, text);
const ledger = (page) => page.locator('.ledger').textContent();

describe('the workspace', { timeout: 1_800_000 }, () => {
  it('shows the demo enquiry with its evidence, mechanism and candidates', async () => {
    const { page, context, faults } = await workspace();
    assert.ok((await page.locator('.ledger .item').count()) >= 9);
    await page.locator('#candidates tbody tr').first().waitFor();
    await page.locator('#mechanism canvas').waitFor();
    assert.match(await page.locator('#mechanism .loaded').textContent(), /\d+ of \d+ lobes/);
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('takes a value in US units and recomputes everything', async () => {
    const { page, context, value } = await workspace();
    const was = await ledger(page);
    await value(`${belt}.lift`).click();
    await page.getByLabel('Value, in any unit').fill('60 ft');
    await settled(page, was);
    await page.keyboard.press('Escape');
    await page.getByRole('radio', { name: 'US', exact: true }).click();
    assert.match(await value(`${belt}.lift`).textContent(), /60\sft/);
    assert.match(await value(`${belt}.mass_flow`).textContent(), /132.*st\/h/);
    await page.getByRole('radio', { name: 'SI', exact: true }).click();
    assert.match(await value(`${belt}.lift`).textContent(), /18\.29\sm/);
    await context.close();
  });

  it('says that work goes on when an answer takes its time', async () => {
    const slowly = () => {
      const post = Worker.prototype.postMessage;
      Worker.prototype.postMessage = function (message) {
        const wait = /"call":"prove"/.test(message.text) ? (window.delay ?? 0) : 0;
        setTimeout(() => post.call(this, message), wait);
      };
    };
    const { page, context } = await openWorkspace(browser, server.url, {}, slowly);
    const status = page.locator('header [role="status"]');
    await page.locator(`#enquiry [data-path="${belt}.mass_flow"]`).first().focus();
    await page.locator('#candidates tbody tr').first().waitFor(); // the engine has started
    await page.evaluate(() => (window.delay = 2000));
    await page.keyboard.press('ArrowUp');
    await page.locator('.ledger[aria-busy="true"]').waitFor();
    assert.match(await status.textContent(), /working/);
    await page.locator('.ledger[aria-busy="false"]').waitFor();
    assert.match(await status.textContent(), /worked in \d+ ms/);
    await context.close();
  });

  it('moves a value with the keyboard and undoes it', async () => {
    const { page, context, value } = await workspace();
    const first = await value(`${belt}.mass_flow`).textContent();
    await value(`${belt}.mass_flow`).focus();
    await page.keyboard.press('ArrowUp');
    assert.notEqual(await value(`${belt}.mass_flow`).textContent(), first);
    await page.keyboard.press('Control+z');
    assert.equal(await value(`${belt}.mass_flow`).textContent(), first);
    await page.keyboard.press('Control+Shift+z');
    assert.notEqual(await value(`${belt}.mass_flow`).textContent(), first);
    await context.close();
  });

  it('drags a value sideways as one step', async () => {
    const { page, context, value } = await workspace();
    const first = await value(`${belt}.mass_flow`).textContent();
    const box = await value(`${belt}.mass_flow`).boundingBox();
    await page.mouse.move(box.x + 10, box.y + 10);
    await page.mouse.down();
    await page.mouse.move(box.x + 60, box.y + 10, { steps: 6 });
    await page.mouse.up();
    assert.notEqual(await value(`${belt}.mass_flow`).textContent(), first);
    assert.equal(await page.locator('.editor').count(), 0, 'a drag opens no editor');
    await page.getByRole('button', { name: 'Undo' }).click();
    assert.equal(await value(`${belt}.mass_flow`).textContent(), first);
    await context.close();
  });

  it('turns the mechanism by dragging its crank, and steps one lobe', async () => {
    const { page, context } = await workspace();
    const canvas = page.locator('#mechanism canvas');
    await canvas.waitFor();
    const turns = page.locator('#mechanism .counts dd');
    const box = await canvas.boundingBox();
    const at = (angle) => [box.x + box.width / 2 + 90 * Math.cos(angle), box.y + (box.height - 30) / 2 - 90 * Math.sin(angle)];
    await page.mouse.move(...at(0));
    await page.mouse.down();
    for (let i = 1; i <= 12; ++i) await page.mouse.move(...at((i * Math.PI) / 24));
    await page.mouse.up();
    await page.waitForFunction(() => Math.abs(Number(document.querySelector('#mechanism .counts dd').textContent) - 0.25) < 0.02);
    await page.getByRole('button', { name: /One lobe on/ }).click();
    await page.waitForFunction(() => document.querySelectorAll('#mechanism .counts dd')[1].textContent === '1');
    assert.equal(await turns.nth(0).textContent(), '1');
    assert.match(await turns.nth(2).textContent(), /^[-−]0\.0/);
    await context.close();
  });

  it('opens a working as set mathematics, with chart and sources', async () => {
    const { page, context, faults } = await workspace();
    await page.locator('#finding-contact button').first().click();
    await page.locator('#finding-contact math').first().waitFor();
    assert.ok((await page.locator('#finding-contact math[display="block"]').count()) > 2);
    assert.ok((await page.locator('#finding-contact .numbered li').count()) > 0);
    await page.locator('#finding-sharing button').first().click();
    await page.locator('#finding-sharing figure svg').first().waitFor();
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('opens every finding with its charts, each named, drawn and explained, or with its working', async () => {
    const { page, context, faults } = await workspace();
    const items = page.locator('.ledger [id^="finding-"]');
    const ids = await items.evaluateAll((list) => list.map((item) => item.id));
    assert.equal(ids.length, 16);
    for (const id of ids) {
      const item = page.locator(`#${id}`);
      await item.locator('button').first().click();
      if (unplotted.has(id)) {
        await item.locator('math').first().waitFor();
        await item.locator('button').first().click();
        continue;
      }
      await item.locator('figure svg[role="img"]').first().waitFor();
      for (const figure of await item.locator('figure').all()) {
        const drawing = figure.locator('svg[role="img"]');
        await drawing.waitFor();
        assert.ok((await figure.locator('.title').textContent()).length > 0, id);
        assert.ok((await drawing.locator('path, line, rect, circle').count()) > 5, `${id}: an empty chart`);
        const legend = await figure.locator('.legend').allTextContents();
        assert.doesNotMatch(legend.join(' '), /first bar|second bar|\{\}|undefined|NaN/, id);
      }
      await item.locator('button').first().click();
    }
    await page.locator('#finding-fit button').first().click();
    assert.match(await page.locator('#finding-fit .legend').first().textContent(), /what stands there.*candidate/s);
    await page.locator('#finding-lubrication button').first().click();
    await page.getByRole('radio', { name: 'US', exact: true }).click();
    assert.match(await page.locator('#finding-lubrication .legend').first().textContent(), /cSt at 104\s°F/);
    await page.locator('#finding-lubrication figure', { hasText: 'Kinematic viscosity, cSt' }).first().waitFor();
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('proves another candidate, sets two side by side, and goes back', async () => {
    const { page, context } = await workspace();
    const build = page.locator('#evidence .build');
    await page.locator('#candidates tbody tr').nth(1).waitFor();
    const first = await build.textContent();
    await page.locator('#candidates').getByRole('checkbox').nth(0).click();
    await page.locator('#candidates').getByRole('checkbox').nth(1).click();
    await page.locator('.beside').waitFor();
    await page.locator('#candidates').getByRole('button', { name: 'Prove this one' }).first().click();
    await page.waitForFunction((was) => document.querySelector('#evidence .build').textContent !== was, first);
    await page.getByRole('button', { name: 'Let the best one be chosen' }).click();
    await page.waitForFunction((was) => document.querySelector('#evidence .build').textContent === was, first);
    await context.close();
  });

  it('marks what the matrix can only estimate, and shows the proof’s own margins for the build under proof', async () => {
    const { page, context } = await workspace();
    await page.locator('#candidates tbody tr').nth(1).waitFor();
    const heads = await page.locator('#candidates thead th').allTextContents();
    const column = heads.indexOf('Sharing') + 1;
    assert.ok(column > 0);
    const cell = (row) => page.locator(`#candidates tbody tr${row} > *:nth-child(${column})`).first();
    assert.match(await cell(':not(.current)').textContent(), /≈/);
    const own = (await cell('.current').textContent()).trim();
    assert.doesNotMatch(own, /≈/);
    assert.ok((await page.locator('#finding-sharing').textContent()).includes(own.split(/\s/)[0]), own);
    await context.close();
  });

  it('sets the drive in service beside the candidate, with its case, its fit and a gear pair', async () => {
    const { page, context, faults } = await workspace();
    await page.locator('#beside .axes tbody tr').first().waitFor();
    assert.match(await page.locator('#beside').textContent(), /worm unit/);
    assert.ok((await page.locator('#beside .case').count()) === 2, 'against the present unit and against a new one');
    await page.locator('#beside .case figure svg').first().waitFor();
    assert.match(await page.locator('#beside').textContent(), /Pays only if/);
    assert.match(await page.locator('#beside .fit').textContent(), /shaft height/);
    await page.getByRole('radio', { name: 'Beside helical gears' }).click();
    await page.locator('#mechanism').getByText('Designed for the same duty: a helical in-line unit').waitFor();
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('prints all of it on paper', async () => {
    const { page, context } = await workspace();
    await page.locator('#beside .axes tbody tr').first().waitFor();
    const pdf = await page.pdf({ preferCSSPageSize: true });
    assert.equal(pdf.subarray(0, 5).toString(), '%PDF-');
    await page.emulateMedia({ media: 'print' });
    assert.equal(await page.locator('header').first().isVisible(), false);
    // The mechanism, drawn for the screen, must not cover what is printed below it.
    const drawing = await page.locator('#mechanism canvas').first().boundingBox();
    const evidence = await page.locator('#evidence').boundingBox();
    assert.ok(drawing.y + drawing.height <= evidence.y, `${drawing.y + drawing.height} of ${evidence.y}`);
    await context.close();
  });

  it('keeps the work over a reload', async () => {
    const { page, context, value } = await workspace();
    await value('title').click();
    await page.locator('.editor textarea').fill('Kept over a reload');
    await page.keyboard.press('Escape');
    await page.reload();
    await page.locator('#evidence .ledger').waitFor();
    assert.equal(await value('title').textContent(), 'Kept over a reload');
    await page.getByRole('button', { name: 'Undo' }).click();
    assert.notEqual(await value('title').textContent(), 'Kept over a reload');
    await context.close();
  });

  it('says what is wrong with a value, and keeps the last one', async () => {
    const { page, context, value } = await workspace();
    const before = await value(`${belt}.speed`).textContent();
    await value(`${belt}.speed`).click();
    await page.getByLabel('Value, in any unit').fill('3 furlongs');
    await page.getByRole('alert').first().waitFor();
    assert.match(await page.getByRole('alert').first().textContent(), /unknown unit/);
    assert.equal(await value(`${belt}.speed`).textContent(), before);
    await page.keyboard.press('Escape');
    await context.close();
  });

  it('shows an error of the engine with nothing lost', async () => {
    const { page, context, value } = await workspace();
    await value(`${belt}.speed`).click();
    await page.getByLabel('Value, in any unit').fill('900 m/s');
    await page.locator('.problems').waitFor();
    await page.keyboard.press('Escape');
    assert.match(await page.locator('.problems').textContent(), /out of range/);
    assert.ok((await page.locator('.ledger .item').count()) >= 9, 'the last findings stand');
    assert.equal(await value(`${belt}.speed`).getAttribute('class').then((name) => name.includes('wrong')), true);
    await page.getByRole('button', { name: 'Undo' }).click();
    await page.locator('.problems').waitFor({ state: 'detached' });
    await context.close();
  });

  it('says that the engine broke, keeps the findings, and starts another for the next change', async () => {
    const { page, context, faults } = await openWorkspace(browser, server.url);
    await page.locator('#candidates tbody tr').first().waitFor();
    const lift = page.locator(`#enquiry [data-path="${belt}.lift"]`);
    await lift.focus();
    // The engine gets no further than its next request.
    for (const worker of page.workers()) await worker.evaluate(() => {
        self.onmessage = () => reportError(new Error('the engine broke'));
      });
    await page.keyboard.press('ArrowUp');
    await page.locator('.problems').waitFor();
    assert.match(await page.locator('.problems').textContent(), /the engine broke/);
    const changed = await lift.textContent();
    assert.ok((await page.locator('.ledger .item').count()) >= 9, 'the last findings stand');
    await page.keyboard.press('ArrowUp');
    await page.locator('.problems').waitFor({ state: 'detached' });
    assert.notEqual(await lift.textContent(), changed);
    assert.ok(faults.every((fault) => /engine broke/.test(fault)), faults.join('; '));
    await context.close();
  });

  it('says that the engine did not come, shows what it has, and asks again with the next change', async () => {
    const context = await browser.newContext({ viewport: { width: 1440, height: 900 } });
    const page = await context.newPage();
    page.setDefaultTimeout(120_000);
    await page.route('**/*.wasm', (route) => route.fulfill({ contentType: 'application/wasm', body: 'no code' }));
    await page.goto(server.url);
    await page.locator('.problems').waitFor();
    assert.match(await page.locator('.problems').textContent(), /WebAssembly/);
    assert.ok((await page.locator('.ledger .item').count()) >= 9, 'the findings made with the page stand');
    await page.unroute('**/*.wasm');
    await page.locator(`#enquiry [data-path="${belt}.lift"]`).focus();
    await page.keyboard.press('ArrowUp');
    await page.locator('.problems').waitFor({ state: 'detached' });
    await context.close();
  });

  it('opens a file, refuses a broken one, and starts blank', async () => {
    const { page, context, value } = await workspace();
    const picker = page.locator('input[type=file]');
    await picker.setInputFiles({ name: 'x.yaml', mimeType: 'text/yaml', buffer: Buffer.from('a: [1') });
    assert.match(await page.locator('.problems').textContent(), /could not be read/);
    const text = 'title: From a file\nmachine:\n  screw_conveyor:\n    mass_flow: 20 t/h\n    length: 8 m\n    lift: 0 m\n    diameter: 300 mm\n    speed: 60 rpm\n';
    await picker.setInputFiles({ name: 'y.yaml', mimeType: 'text/yaml', buffer: Buffer.from(text) });
    await page.waitForFunction(() => document.querySelector('#enquiry-title').textContent.includes('From a file'));
    assert.match(await value('machine').textContent(), /screw conveyor/);
    await page.getByRole('button', { name: 'File', exact: true }).click();
    await page.getByRole('menuitem', { name: 'A blank enquiry' }).click();
    await page.locator('.problems').waitFor();
    await context.close();
  });

  for (const colorScheme of ['light', 'dark'])
    it(`has no accessibility faults, ${colorScheme}`, async () => {
      const { page, context } = await workspace({ colorScheme });
      await page.locator('#candidates tbody tr').first().waitFor();
      await page.locator('#finding-contact button').first().click();
      await page.locator('#finding-contact math').first().waitFor();
      for (const id of ['lubrication', 'motor', 'fit']) {
        await page.locator(`#finding-${id} button`).first().click();
        await page.locator(`#finding-${id} figure svg[role="img"]`).first().waitFor();
      }
      await page.evaluate(readFileSync(axe, 'utf8')); // the content policy keeps script tags out
      const faults = async () =>
        (await page.evaluate(() => globalThis.axe.run(document, { resultTypes: ['violations'] }))).violations.map(
          (violation) => `${violation.id}: ${violation.nodes.map((node) => node.target.join(' ')).slice(0, 4)}`,
        );
      assert.deepEqual(await faults(), []);
      await page.locator(`#enquiry [data-path="${belt}.lift"]`).first().click();
      await page.locator('.editor').waitFor();
      assert.deepEqual(await faults(), []);
      await context.close();
    });

  it('works on a tablet by touch', async () => {
    const { page, context, value } = await workspace({ viewport: { width: 1024, height: 768 }, hasTouch: true });
    await value(`${belt}.mass_flow`).tap();
    await page.locator('.editor').waitFor();
    assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), 'nothing runs out of the page');
    await context.close();
  });
});

describe('the server', () => {
  const ask = (path, headers, body) => fetch(new URL(path, server.url), { method: body === undefined ? 'GET' : 'POST', headers, body });

  it('answers this machine’s own page only', async () => {
    assert.equal((await ask('/', {})).status, 200);
    assert.equal((await ask('/api', { Origin: 'http://example.org', 'Content-Type': 'application/json' }, '{}')).status, 403);
    assert.equal((await ask('/api', { 'Content-Type': 'text/plain' }, '{}')).status, 415);
    assert.equal((await ask('/..%2f..%2fetc/passwd', {})).status, 404);
  });
  it('has a policy without inline scripts', async () => {
    const policy = (await ask('/', {})).headers.get('content-security-policy');
    assert.match(policy, /script-src 'self' 'wasm-unsafe-eval'/);
  });
  it('is a door to the engine', async () => {
    const answer = await (await ask('/api', { 'Content-Type': 'application/json' }, '{"call":"units"}')).json();
    assert.ok(answer.quantities.power);
  });
  it('refuses what is too large', async () => {
    const answer = await ask('/api', { 'Content-Type': 'application/json' }, 'x'.repeat(17 << 20)).catch(() => ({ status: 413 }));
    assert.equal(answer.status, 413);
  });
});
