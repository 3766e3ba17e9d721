// Starts the workspace as a customer's engineer would, and a browser on it.
import { spawn } from 'node:child_process';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';

const root = new URL('../../', import.meta.url);
const require = createRequire(new URL('web/package.json', root));
export const { chromium } = require('playwright-core');
export const axe = require.resolve('axe-core/axe.min.js');
export const binary = process.env.LOBEWISE ?? fileURLToPath(new URL('build/release/bin/lobewise', root));

/** `lobewise workspace` on a free port; resolves when it listens. */
export function startServer(...more) {
  const child = spawn(binary, ['workspace', '--port', '0', '--no-browser', ...more], { stdio: ['ignore', 'pipe', 'inherit'] });
  return new Promise((resolve, reject) => {
    let out = '';
    child.stdout.on('data', (data) => {
      out += data;
      const url = /http:\/\/127\.0\.0\.1:\d+\/\S*/.exec(out)?.[0];
      if (url) resolve({ url, stop: () => child.kill() });
    });
    child.on('exit', (code) => reject(new Error(`the workspace stopped with ${code}: ${out}`)));
  });
}

export function startBrowser() {
  return chromium.launch({
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
    args: ['--no-sandbox', '--disable-quic', '--disable-background-networking'],
  });
}

/** A page with the evidence on it; anything that goes wrong in it is collected in `faults`. */
export async function openWorkspace(browser, url, options = {}, script = undefined) {
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, ...options });
  const page = await context.newPage();
  if (script) await page.addInitScript(script);
  const faults = [];
  page.on('pageerror', (error) => faults.push(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error') faults.push(message.text());
  });
  page.setDefaultTimeout(120_000);
  await page.goto(url);
  await page.locator('#evidence .ledger').waitFor();
  return { page, context, faults };
}
