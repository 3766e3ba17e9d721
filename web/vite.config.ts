import { fileURLToPath } from 'node:url';
import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'vitest/config';

const engine = fileURLToPath(new URL('./src/generated/engine.mjs', import.meta.url));

export default defineConfig(({ mode }) => ({
  base: './',
  plugins: [svelte()],
  resolve: {
    alias: { '#engine': engine },
    ...(mode === 'test' ? { conditions: ['browser'] } : {}),
  },
  server: { fs: { allow: ['..'] } },
  worker: { format: 'es' as const },
  build: {
    target: 'es2022',
    chunkSizeWarningLimit: 900, // three.js
    assetsInlineLimit: 0, // the content security policy allows no data: fonts
    modulePreload: { polyfill: false },
  },
  test: { environment: 'happy-dom', include: ['src/**/*.test.ts'] },
}));
