// The library in the workspace: saved, found, opened, in conflict, signed in to.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { axe, binary, openWorkspace, startBrowser, startServer } from './page.mjs';

const hostile = '<img src=x onerror=alert(1)></td><script>alert(2)</script> "\'&amp;';

let browser, work;
before(async () => {
  work = mkdtempSync(join(tmpdir(), 'lobewise-'));
  browser = await startBrowser();
});
after(async () => {
  await browser?.close();
  rmSync(work, { recursive: true, force: true });
});

const store = (place, ...words) => execFileSync(binary, ['store', '--store', place, ...words], { input: 'a long pass phrase\n' }).toString();
/** A value of the page, typed as a person does; it counts once the page shows it. */
async function type(page, path, text) {
  const value = page.locator(`#enquiry [data-path="${path}"]`).first();
  await value.click();
  await page.locator('.editor input[type=text], .editor textarea, .editor input:not([type])').first().fill(text);
  await page.waitForFunction(
    ([where, wanted]) => document.querySelector(where)?.textContent.replace(/\s+/g, ' ').includes(wanted),
    [`#enquiry [data-path="${path}"]`, text.replace(/\s+/g, ' ')],
  );
  await page.keyboard.press('Escape');
}

describe('the library', { timeout: 240_000 }, () => {
  it('is not there without a store', async () => {
    const server = await startServer();
    const { page, context } = await openWorkspace(browser, server.url);
    assert.equal(await page.locator('#library').count(), 0);
    await context.close();
    server.stop();
  });

  it('saves, lists, searches, opens, and tells who was faster', async () => {
    const place = join(work, 'office.lobewise');
    const server = await startServer('--store', place);
    const first = await openWorkspace(browser, server.url);
    const library = first.page.locator('#library');
    await first.page.getByText('The enquiry above is not in the library yet.').waitFor();
    await type(first.page, 'title', hostile);
    await library.getByLabel('What is new').fill(hostile);
    await library.getByRole('button', { name: 'Save as a new enquiry' }).click();
    await first.page.getByText('Enquiry 1, revision 1 of 1: as it stands above.').waitFor();
    assert.equal(await library.locator('tbody tr td').nth(1).textContent(), hostile);
    assert.equal(await library.locator('script, img').count(), 0);

    await type(first.page, 'machine.belt_conveyor.lift', '12 m');
    await first.page.getByText('Enquiry 1, revision 1 of 1: changed above since it was saved.').waitFor();
    await first.page.reload();
    await library.getByLabel('What is new').fill('lift measured');
    await library.getByRole('button', { name: 'Save as revision 2 of enquiry 1' }).click();
    await first.page.getByText('Enquiry 1, revision 2 of 2: as it stands above.').waitFor();
    assert.match(store(place, 'show', '1', '--enquiry'), /"lift": "12 m"/);
    await library.getByLabel('Where it stands').selectOption('offered');
    await library.getByLabel('Follow up on').fill('2031-03-09');
    await library.getByRole('button', { name: 'Note this' }).click();
    await library.locator('tbody', { hasText: '2031-03-09' }).waitFor();

    // Another window opens the first revision again, and is faster.
    const second = await openWorkspace(browser, server.url);
    const other = second.page.locator('#library');
    await other.getByPlaceholder('Words in title').fill('nobody wrote this');
    await second.page.getByText('No enquiry matches.').waitFor();
    await other.getByPlaceholder('Words in title').fill('SCRIPT lift');
    await other.getByRole('button', { name: 'Open enquiry 1' }).click();
    await second.page.getByText('Enquiry 1, revision 2 of 2: as it stands above.').waitFor();
    await other.getByRole('button', { name: 'Open revision 1' }).click();
    await second.page.getByText('Enquiry 1, revision 1 of 2: as it stands above.').waitFor();
    // Its saved figures stand beside a new proof: the same engine says the same.
    await other.getByText('It comes out as it was saved.').waitFor();
    await type(second.page, 'machine.belt_conveyor.lift', '11 m');
    await other.getByRole('button', { name: 'Save as revision 3 of enquiry 1' }).click();
    await second.page.getByText('Enquiry 1, revision 3 of 3: as it stands above.').waitFor();

    await type(first.page, 'machine.belt_conveyor.lift', '13 m');
    await library.getByRole('button', { name: 'Save as revision 3 of enquiry 1' }).click();
    await first.page.locator('#library [role=alert]', { hasText: /changed by .*Your values stay on this page/s }).waitFor();
    if (process.env.LOBEWISE_PICTURES) await library.screenshot({ path: join(process.env.LOBEWISE_PICTURES, 'library.png') });
    await first.page.evaluate(readFileSync(axe, 'utf8'));
    const { violations } = await first.page.evaluate(() => globalThis.axe.run('#library', { resultTypes: ['violations'] }));
    assert.deepEqual(violations.map((each) => `${each.id}: ${each.nodes.map((node) => node.target)}`), []);
    assert.match(await first.page.locator('#enquiry').textContent(), /13\s*m/);
    await library.getByRole('button', { name: 'Open what is there now' }).click();
    await first.page.getByText('Enquiry 1, revision 3 of 3: as it stands above.').waitFor();
    assert.match(await first.page.locator('#enquiry').textContent(), /11\s*m/);
    // A refused change answers 409, which a browser notes on its console; nothing else may be there.
    assert.deepEqual(first.faults.filter((fault) => !fault.includes('409')), []);
    assert.deepEqual(second.faults, []);
    await first.context.close();
    await second.context.close();
    server.stop();
  });

  it('asks who one is when it knows people, and a reader only reads', async () => {
    const place = join(work, 'team.lobewise');
    store(place, 'init');
    store(place, 'person', 'anna', '--role', 'engineer');
    store(place, 'person', 'bo', '--role', 'reader');
    const server = await startServer('--store', place);
    const { page, context, faults } = await openWorkspace(browser, server.url);
    const library = page.locator('#library');
    const signIn = async (name, password) => {
      await library.getByLabel('Name').fill(name);
      await library.getByLabel('Password').fill(password);
      await library.getByRole('button', { name: 'Sign in' }).click();
    };
    assert.equal(await library.locator('table').count(), 0);
    await signIn('anna', 'a wrong pass phrase');
    await library.locator('[role=alert]').waitFor();
    await signIn('anna', 'a long pass phrase');
    await library.getByText('anna, engineer').waitFor();
    await library.getByRole('button', { name: 'Save as a new enquiry' }).click();
    await page.getByText('Enquiry 1, revision 1 of 1: as it stands above.').waitFor();
    await page.reload();
    await library.getByText('anna, engineer').waitFor();
    await library.getByRole('button', { name: 'Sign out' }).click();
    await signIn('bo', 'a long pass phrase');
    await library.getByText('bo, reader').waitFor();
    assert.equal(await library.getByRole('button', { name: /^Save/ }).count(), 0);
    assert.equal(await library.locator('tbody tr').count(), 1);
    assert.match(store(place, 'audit'), /anna +save/);
    assert.deepEqual(faults.filter((fault) => !fault.includes('401')), []);
    await context.close();
    server.stop();
  });
});
