// The page's engines. Their code is compiled once for all of them, while it comes from the server, and not before the page
// has painted what it has without them: people read while the engine gets ready.
import codeAddress from '../generated/engine.wasm?url';
import { EngineClient, type Port } from './client';
import type { Code } from './worker';

const kLongestWait = 500; // for the paint [ms]; a page in the background paints nothing

const painted = () =>
  new Promise<void>((resolve) => {
    requestAnimationFrame(() => setTimeout(resolve));
    setTimeout(resolve, kLongestWait);
  });

/** @param first  what is to be on the screen before the engines take the processor */
export function engines(first: Promise<unknown>): () => EngineClient {
  let compiled: Promise<WebAssembly.Module> | undefined;

  async function code(): Promise<Code> {
    compiled ??= first.then(painted).then(() => WebAssembly.compileStreaming(fetch(codeAddress)));
    try {
      return { code: await compiled };
    } catch (error) {
      compiled = undefined; // the next engine asks again
      return { problem: String(error) };
    }
  }

  return () =>
    new EngineClient(() => {
      const port = new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' });
      void code().then((given) => port.postMessage(given));
      return port as Port;
    });
}
