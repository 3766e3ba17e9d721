// The engine in its own thread: its compiled code first, then requests in and answers out, in order.
import create from '#engine';

export interface Request {
  id: number;
  text: string;
}
export interface Reply {
  id: number;
  text: string;
}
/** The engine's code, or why there is none. It may come after the first requests. */
export type Code = { code: WebAssembly.Module } | { problem: string };

let begin: (code: Code) => void;
const ready = new Promise<Code>((resolve) => (begin = resolve)).then((given) => {
  if ('problem' in given) throw new Error(given.problem);
  return create({
    instantiateWasm: (imports, receive) => {
      void WebAssembly.instantiate(given.code, imports).then(receive, reportError);
      return {};
    },
  });
});

async function answer({ id, text }: Request): Promise<Reply> {
  const engine = await ready;
  const size = engine.lengthBytesUTF8(text) + 1;
  const at = engine._malloc(size);
  engine.stringToUTF8(text, at, size);
  const reply: Reply = { id, text: engine.UTF8ToString(engine._engine_answer(at)) };
  engine._free(at);
  return reply;
}

self.onmessage = ({ data }: MessageEvent<Request | Code>) => {
  // A broken engine is reported, not only rejected: that is what reaches the page, which starts another one.
  if ('id' in data) answer(data).then((reply) => self.postMessage(reply), reportError);
  else begin(data);
};
