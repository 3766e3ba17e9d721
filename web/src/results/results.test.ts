import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { Answer, EngineClient } from '../engine/client';
import type { Prove } from '../engine/contract';
import { Results } from './results.svelte';

type Settle = (answer: Answer<unknown> | undefined) => void;

/** Proofs that the test answers, or takes back, in the order they were asked. */
function slowEngine() {
  const asked: Settle[] = [];
  const engine = { latest: () => new Promise((resolve) => asked.push(resolve as Settle)) } as unknown as EngineClient;
  return { asked, results: new Results(engine, () => engine) };
}
const proof: Answer<unknown> = {
  ok: true,
  value: { drive: [], findings: [], requirement: [], assumptions: [] } as unknown as Prove,
};
const settled = () => vi.advanceTimersByTimeAsync(0);

describe('work that goes on', () => {
  beforeEach(() => vi.useFakeTimers());
  afterEach(() => vi.useRealTimers());

  it('is said after a while, and stands long enough to be read', async () => {
    const { asked, results } = slowEngine();
    void results.prove({}, true);
    await vi.advanceTimersByTimeAsync(190);
    expect(results.slow).toBe(false);
    await vi.advanceTimersByTimeAsync(20);
    expect(results.slow).toBe(true);
    asked[0]?.(proof);
    await settled();
    expect(results.working).toBe(false);
    expect(results.slow).toBe(true);
    await vi.advanceTimersByTimeAsync(400);
    expect(results.slow).toBe(false);
  });

  it('is not said for quick answers, however many', async () => {
    const { asked, results } = slowEngine();
    for (let i = 0; i < 20; i += 1) {
      void results.prove({ title: String(i) }, true);
      await vi.advanceTimersByTimeAsync(60);
      asked[i]?.(proof);
      await settled();
      expect(results.slow).toBe(false);
    }
  });

  it('goes on until the newest question is answered', async () => {
    const { asked, results } = slowEngine();
    void results.prove({ title: 'old' }, true);
    await vi.advanceTimersByTimeAsync(150);
    void results.prove({ title: 'taken back' }, true);
    void results.prove({ title: 'new' }, true);
    asked[1]?.(undefined);
    await vi.advanceTimersByTimeAsync(100);
    expect(results.slow).toBe(true); // 250 ms since the first question
    asked[0]?.(proof);
    await vi.advanceTimersByTimeAsync(1000);
    expect(results.working).toBe(true);
    expect(results.slow).toBe(true);
    asked[2]?.(proof);
    await vi.advanceTimersByTimeAsync(10);
    expect(results.working).toBe(false);
    expect(results.slow).toBe(false);
  });
});

describe('a proof in two steps', () => {
  it('keeps the last questions until the whole of it is asked, once', async () => {
    const inputs: Record<string, unknown>[] = [];
    const engine = {
      latest: (_channel: string, _call: string, input: Record<string, unknown>) => {
        inputs.push(input);
        const questions = input['questions'] ? [{ path: 'duty', text: 'How long?' }] : undefined;
        return Promise.resolve({ ok: true, value: { ...(proof as { value: Prove }).value, questions } });
      },
    } as unknown as EngineClient;
    const results = new Results(engine, () => engine);
    await results.prove({ title: 'first' }, true);
    const moved = { title: 'moved' };
    await results.prove(moved, false);
    expect(results.whole).toBe(false);
    expect(results.proved?.questions).toHaveLength(1);
    await results.prove(moved, true);
    await results.prove(moved, true);
    await results.prove(moved, false);
    expect(results.whole).toBe(true);
    expect(inputs.map((input) => input['in_time'])).toEqual([true, false, true]);
  });
});
