// The engine in its own thread. Its code comes with the first message: a worker of a one-file page can load nothing.
import create from '#engine';
import type { Reply, Request } from '../engine/worker';

let ready: ReturnType<typeof create> | undefined;

self.onmessage = async (message: MessageEvent<Request | { code: ArrayBuffer }>) => {
  if ('code' in message.data) {
    ready = create({ wasmBinary: message.data.code });
    return;
  }
  const engine = await ready!;
  const { id, text } = message.data;
  const size = engine.lengthBytesUTF8(text) + 1;
  const at = engine._malloc(size);
  engine.stringToUTF8(text, at, size);
  const reply: Reply = { id, text: engine.UTF8ToString(engine._engine_answer(at)) };
  engine._free(at);
  self.postMessage(reply);
};
