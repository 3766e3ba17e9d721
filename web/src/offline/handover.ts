// What `lobewise handover` put into the page, and the engine that knows it.
import { EngineClient, type Answer, type Port } from '../engine/client';
import type { Code } from '../engine/worker';
import type { Doc } from '../enquiry/path';
import type { System } from '../quantity/units';

export interface Handover {
  enquiry: Doc;
  build: Doc;
  units: System;
  date: string;
  range?: Doc;
}

interface Parts {
  engine: ArrayBuffer;
  worker: string;
}

/** The hand-over in this page; undefined in the empty template. */
export function readHandover(text: string): Handover | undefined {
  let read: unknown;
  try {
    read = JSON.parse(text);
  } catch {
    return undefined;
  }
  const handover = read as Partial<Handover> | null;
  const whole = typeof handover === 'object' && typeof handover?.enquiry === 'object' && handover.build !== undefined;
  return whole ? (handover as Handover) : undefined;
}

/** These calls take the range that the builds are from. */
const kWithRange = new Set(['prove', 'size', 'compare', 'mechanism', 'disc_stress']);

export class OfflineEngine extends EngineClient {
  #range: Doc | undefined;

  constructor(makePort: () => Port, range: Doc | undefined) {
    super(makePort);
    this.#range = range;
  }

  override latest<T>(channel: string, call: string, input: unknown): Promise<Answer<T> | undefined> {
    const whole = this.#range && kWithRange.has(call) ? { ...(input as Doc), range: this.#range } : input;
    return super.latest<T>(channel, call, whole);
  }
}

/** A worker from the page's own parts. */
export function startOffline(range: Doc | undefined): OfflineEngine {
  const { engine, worker } = (window as unknown as { lobewiseParts: Parts }).lobewiseParts;
  const code = WebAssembly.compile(engine).then(
    (module): Code => ({ code: module }),
    (error: unknown): Code => ({ problem: String(error) }),
  );
  return new OfflineEngine(() => {
    const port = new Worker(worker);
    void code.then((given) => port.postMessage(given));
    return port as Port;
  }, range);
}
