// The engine in its own thread: requests in, answers out, in order.
import create from '#engine';

export interface Request {
  id: number;
  text: string;
}
export interface Reply {
  id: number;
  text: string;
}

const ready = create();

self.onmessage = async (message: MessageEvent<Request>) => {
  const engine = await ready;
  const { id, text } = message.data;
  const size = engine.lengthBytesUTF8(text) + 1;
  const at = engine._malloc(size);
  engine.stringToUTF8(text, at, size);
  const reply: Reply = { id, text: engine.UTF8ToString(engine._engine_answer(at)) };
  engine._free(at);
  self.postMessage(reply);
};
