// One engine in one worker. `latest` keeps at most one request of a channel waiting: a newer one takes its place, so
// that a value being dragged never queues up work nobody will look at. What has been worked is still delivered, so that
// the screen moves while the drag goes on.
import type { Problem } from './contract';
import type { Reply, Request } from './worker';

export type Answer<T> = { ok: true; value: T } | { ok: false; errors: Problem[] };

/** What of a Worker is used; tests put their own in. */
export interface Port {
  postMessage(message: Request): void;
  terminate(): void;
  onmessage: ((event: MessageEvent<Reply>) => void) | null;
  onerror: ((event: ErrorEvent) => void) | null;
}

interface Waiting {
  text: string;
  settle: (answer: Answer<unknown> | undefined) => void;
}

export class EngineClient {
  #makePort: () => Port;
  #port: Port | undefined; // made for the first request, and for the first one after a failure
  #next = 1;
  #open = new Map<number, Waiting['settle']>();
  #busy = new Set<string>();
  #queued = new Map<string, Waiting>();

  constructor(makePort: () => Port) {
    this.#makePort = makePort;
  }

  /** Every request is answered. */
  ask<T>(call: string, input: unknown): Promise<Answer<T>> {
    return new Promise((resolve) => {
      this.#send(JSON.stringify({ call, input }), (answer) => resolve(answer as Answer<T>));
    });
  }

  /** The answer, or undefined when a newer request of the same channel took its place while it waited. */
  latest<T>(channel: string, call: string, input: unknown): Promise<Answer<T> | undefined> {
    return new Promise((resolve) => {
      const waiting: Waiting = {
        text: JSON.stringify({ call, input }),
        settle: (answer) => resolve(answer as Answer<T> | undefined),
      };
      if (!this.#busy.has(channel)) return this.#run(channel, waiting);
      this.#queued.get(channel)?.settle(undefined);
      this.#queued.set(channel, waiting);
    });
  }

  #run(channel: string, waiting: Waiting): void {
    this.#busy.add(channel);
    this.#send(waiting.text, (answer) => {
      this.#busy.delete(channel);
      const next = this.#queued.get(channel);
      this.#queued.delete(channel);
      if (next) this.#run(channel, next);
      waiting.settle(answer);
    });
  }

  #send(text: string, settle: Waiting['settle']): void {
    const id = this.#next++;
    this.#open.set(id, settle);
    this.#port ??= this.#start();
    this.#port.postMessage({ id, text });
  }

  #start(): Port {
    const port = this.#makePort();
    port.onmessage = ({ data }) => {
      const settle = this.#open.get(data.id);
      this.#open.delete(data.id);
      settle?.(read(data.text));
    };
    port.onerror = (event) => {
      // The engine's thread broke (out of memory, say): answer what was open, lose nothing; the next request has a new one.
      event.preventDefault?.();
      port.terminate();
      const open = [...this.#open.values()];
      this.#open.clear();
      this.#port = undefined;
      const answer = failure(event.message || 'the engine stopped');
      for (const settle of open) settle(answer);
    };
    return port;
  }
}

function failure(message: string): Answer<never> {
  return { ok: false, errors: [{ kind: 'internal', path: '', message }] };
}

function read(text: string): Answer<unknown> {
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch {
    return failure('the engine gave no readable answer');
  }
  const errors = (json as { errors?: Problem[] }).errors;
  return Array.isArray(errors) ? { ok: false, errors } : { ok: true, value: json };
}
