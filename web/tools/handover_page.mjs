// The hand-over as one file: page, worker, style and engine packed into handover.html, which loads nothing.
import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { gzipSync } from 'node:zlib';
import { fileURLToPath } from 'node:url';
import { svelte } from '@sveltejs/vite-plugin-svelte';
import { build } from 'vite';

const here = (path) => fileURLToPath(new URL(path, import.meta.url));
const kMost = 3_000_000; // of the whole file [bytes]; it goes by mail

/** One script, and its style. */
async function bundle(entry, name) {
  const { output } = await build({
    root: here('..'),
    configFile: false,
    logLevel: 'warn',
    publicDir: false,
    plugins: [svelte()],
    resolve: { alias: { '#engine': here('../src/generated/engine.mjs') } },
    build: {
      write: false,
      target: 'es2022',
      assetsInlineLimit: Number.MAX_SAFE_INTEGER,
      cssCodeSplit: false,
      chunkSizeWarningLimit: Infinity,
      modulePreload: { polyfill: false },
      lib: { entry: here(`../src/${entry}`), name, formats: ['iife'], fileName: name },
      rolldownOptions: { output: { codeSplitting: false } },
    },
  }).then((built) => (Array.isArray(built) ? built[0] : built));
  const script = output.filter((part) => part.type === 'chunk');
  if (script.length !== 1) throw new Error(`${entry}: ${script.length} scripts instead of one`);
  const style = output.find((part) => part.fileName.endsWith('.css'));
  return { script: script[0].code, style: style ? String(style.source) : '' };
}

const page = await bundle('offline/main.ts', 'page');
const worker = await bundle('engine/worker.ts', 'worker');

const parts = {
  style: page.style,
  page: page.script,
  worker: worker.script,
  engine: readFileSync(here('../src/generated/engine.wasm')),
};
const packed = Object.entries(parts)
  .map(([id, content]) => {
    const text = gzipSync(content, { level: 9 }).toString('base64');
    return `<script id="packed-${id}" type="text/plain">${text}</script>`;
  })
  .join('\n    ');
const boot = readFileSync(here('../src/offline/boot.js'), 'utf8');
const shell = readFileSync(here('../handover.html'), 'utf8');
const inline = `\n      ${boot}\n    `;
const hash = createHash('sha256').update(inline).digest('base64');
const html = shell
  .replace('%boot-hash%', () => `sha256-${hash}`)
  .replace('%packed%', () => packed)
  .replace('\n      %boot%\n    ', () => inline);
if (html.length > kMost) throw new Error(`handover.html has ${html.length} bytes; ${kMost} are allowed`);
mkdirSync(here('../dist'), { recursive: true });
writeFileSync(here('../dist/handover.html'), html);
const size = (bytes) => `${Math.round(bytes / 1000)} kB`;
console.log(`handover.html: ${size(html.length)}`);
