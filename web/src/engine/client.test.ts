import { describe, expect, it } from 'vitest';
import { EngineClient, type Port } from './client';
import type { Reply, Request } from './worker';

class Fake implements Port {
  sent: Request[] = [];
  ended = false;
  onmessage: ((event: MessageEvent<Reply>) => void) | null = null;
  onerror: ((event: ErrorEvent) => void) | null = null;
  postMessage(message: Request): void {
    this.sent.push(message);
  }
  terminate(): void {
    this.ended = true;
  }
  answer(index: number, json: unknown): void {
    this.onmessage?.({ data: { id: this.sent[index]!.id, text: JSON.stringify(json) } } as MessageEvent<Reply>);
  }
}

function start(): { client: EngineClient; ports: Fake[] } {
  const ports: Fake[] = [];
  const client = new EngineClient(() => {
    const port = new Fake();
    ports.push(port);
    return port;
  });
  return { client, ports };
}

describe('the engine behind its worker', () => {
  it('lets a newer request take the place of one that waits, and delivers what was worked', async () => {
    const { client, ports } = start();
    const first = client.latest('prove', 'prove', 1);
    const port = ports[0]!;
    const second = client.latest('prove', 'prove', 2);
    const third = client.latest('prove', 'prove', 3);
    expect(await second).toBeUndefined();
    expect(port.sent).toHaveLength(1);
    port.answer(0, { n: 1 });
    expect(await first).toEqual({ ok: true, value: { n: 1 } });
    expect(port.sent).toHaveLength(2);
    expect(port.sent[1]!.text).toContain('"input":3');
    port.answer(1, { n: 3 });
    expect(await third).toEqual({ ok: true, value: { n: 3 } });
  });

  it('keeps channels apart', () => {
    const { client, ports } = start();
    void client.latest('a', 'x', 1);
    void client.latest('b', 'x', 1);
    expect(ports[0]!.sent).toHaveLength(2);
  });

  it('hands errors of the engine on as values', async () => {
    const { client, ports } = start();
    const answer = client.ask('prove', {});
    const errors = [{ kind: 'input', path: 'machine', message: 'missing' }];
    ports[0]!.answer(0, { errors });
    expect(await answer).toEqual({ ok: false, errors });
  });

  it('starts anew when the worker breaks, and answers what was open', async () => {
    const { client, ports } = start();
    const answer = client.ask('prove', {});
    ports[0]!.onerror?.({ message: 'out of memory' } as ErrorEvent);
    expect(await answer).toMatchObject({ ok: false, errors: [{ kind: 'internal', message: 'out of memory' }] });
    expect(ports[0]!.ended).toBe(true);
    expect(ports).toHaveLength(1); // an engine that breaks at its start must not be started over and over
    const again = client.ask('prove', {});
    ports[1]!.answer(0, { fine: true });
    expect(await again).toEqual({ ok: true, value: { fine: true } });
  });

  it('a channel goes on after the worker broke', async () => {
    const { client, ports } = start();
    const broken = client.latest('prove', 'prove', 1);
    const next = client.latest('prove', 'prove', 2);
    ports[0]!.onerror?.({ message: 'trap' } as ErrorEvent);
    expect((await broken)?.ok).toBe(false);
    ports[1]!.answer(0, { n: 2 });
    expect(await next).toEqual({ ok: true, value: { n: 2 } });
  });
});
