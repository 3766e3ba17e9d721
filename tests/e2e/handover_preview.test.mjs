// Preview and download of the hand-over in the workspace.
import assert from 'node:assert/strict';
import { after, before, describe, it } from 'node:test';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { axe, openWorkspace, startBrowser, startServer } from './page.mjs';

const hostile = '</title><script>parent.alert(1)</script><img src=x onerror=alert(2)>';
const example = new URL('../../examples/inclined_cullet_conveyor.yaml', import.meta.url);

let server, browser, work;
before(async () => {
  work = mkdtempSync(join(tmpdir(), 'lobewise-'));
  const kept = readFileSync(example, 'utf8').replace(/^title:.*$/m, `title: ${JSON.stringify(hostile)}`);
  writeFileSync(join(work, 'enquiry.yaml'), kept);
  server = await startServer(join(work, 'enquiry.yaml'));
  browser = await startBrowser();
});
after(async () => {
  await browser?.close();
  server?.stop();
  rmSync(work, { recursive: true, force: true });
});

async function taken(page, name) {
  const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name, exact: true }).click()]);
  return { name: download.suggestedFilename(), content: readFileSync(await download.path()) };
}

describe('the hand-over in the workspace', { timeout: 240_000 }, () => {
  it('is previewed without scripts, and tells when it is older than the values', async () => {
    const { page, context, faults } = await openWorkspace(browser, server.url);
    page.on('dialog', (dialog) => {
      faults.push(`dialog: ${dialog.message()}`);
      void dialog.dismiss();
    });
    await page.locator('#enquiry-title', { hasText: 'parent.alert' }).waitFor();
    await page.getByRole('button', { name: 'Preview of the proposal' }).click();
    const frame = page.frameLocator('#handover iframe');
    await frame.locator('.lead', { hasText: 'We offer' }).waitFor();
    assert.equal(await frame.locator('h1').textContent(), hostile);
    assert.equal(await page.locator('#handover iframe').getAttribute('sandbox'), '');
    assert.equal(await frame.locator('script, img').count(), 0);
    assert.equal(await page.getByText('The preview shows earlier values.').count(), 0);
    await page.evaluate(readFileSync(axe, 'utf8'));
    const { violations } = await page.evaluate(() => globalThis.axe.run('#handover', { resultTypes: ['violations'], iframes: false }));
    assert.deepEqual(violations.map((each) => `${each.id}: ${each.nodes.map((node) => node.target)}`), []);
    await page.locator('#enquiry [data-path="machine.belt_conveyor.lift"]').first().focus();
    await page.keyboard.press('ArrowUp');
    await page.getByText('The preview shows earlier values.').waitFor();
    assert.deepEqual(faults, []);
    await context.close();
  });

  it('is taken away file by file', async () => {
    const { page, context, faults } = await openWorkspace(browser, server.url);
    await page.locator('#enquiry-title', { hasText: 'parent.alert' }).waitFor();
    const dxf = await taken(page, 'Dimension drawing, DXF');
    assert.equal(dxf.name, 'drawing.dxf');
    assert.match(dxf.content.toString('latin1'), /SECTION[^]*EOF\s*$/);
    const xlsx = await taken(page, 'Findings and case as a workbook, XLSX');
    assert.equal(xlsx.content.toString('latin1', 0, 2), 'PK');
    const alone = await taken(page, 'This page in one file that needs no network, HTML');
    assert.match(alone.content.toString('utf8', 0, 20_000), /"lobewise-handover" type="application\/json">\{"build":/);
    const pdf = await taken(page, 'Order sheet, PDF');
    assert.equal(pdf.content.toString('latin1', 0, 5), '%PDF-');
    assert.deepEqual(faults, []);
    await context.close();
  });
});
