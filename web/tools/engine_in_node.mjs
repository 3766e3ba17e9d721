// The engine as WebAssembly, for tools and tests that run in node.
import { pathToFileURL } from 'node:url';

export const enginePath = process.env.LOBEWISE_ENGINE
  ? pathToFileURL(process.env.LOBEWISE_ENGINE).href
  : new URL('../../build/wasm/bin/engine.mjs', import.meta.url).href;

export async function loadEngine() {
  const { default: create } = await import(enginePath);
  const engine = await create();
  return (call, input) => {
    const text = JSON.stringify({ call, input: input ?? {} });
    const size = engine.lengthBytesUTF8(text) + 1;
    const at = engine._malloc(size);
    engine.stringToUTF8(text, at, size);
    const answer = engine.UTF8ToString(engine._engine_answer(at));
    engine._free(at);
    return JSON.parse(answer);
  };
}
