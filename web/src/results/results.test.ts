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
    void results.prove({});
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
      void results.prove({ title: String(i) });
      await vi.advanceTimersByTimeAsync(60);
      asked[i]?.(proof);
      await settled();
      expect(results.slow).toBe(false);
    }
  });

  it('goes on until the newest question is answered', async () => {
    const { asked, results } = slowEngine();
    void results.prove({ title: 'old' });
    await vi.advanceTimersByTimeAsync(150);
    void results.prove({ title: 'taken back' });
    void results.prove({ title: 'new' });
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
