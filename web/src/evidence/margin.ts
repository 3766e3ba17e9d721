import type { Check, Finding } from '../engine/contract';

/** The check that decides: the one with the least margin. */
export function deciding(finding: Finding): Check | undefined {
  return finding.checks.reduce<Check | undefined>(
    (worst, check) => (!worst || check.margin < worst.margin ? check : worst),
    undefined,
  );
}

/** A margin as people say it. */
export function percent(margin: number): string {
  const value = Math.round(margin * 100);
  if (value > 999) return '>\u2009999\u00a0%';
  return `${value < 0 ? '\u2212' : ''}${Math.abs(value)}\u00a0%`;
}

/** Where a margin lies on the scale from -50 % to +100 % that every margin bar shares, 0 … 1. */
export const place = (margin: number): number => (Math.min(1, Math.max(-0.5, margin)) + 0.5) / 1.5;

/** Margins at the two ends of the range of what is not known exactly. */
export function marginRange(check: Check): [number, number] | undefined {
  if (!check.low || !check.high || check.limit.value === 0) return undefined;
  const at = (figure: number) =>
    (check.at_most ? check.limit.value - figure : figure - check.limit.value) / check.limit.value;
  const ends: [number, number] = [at(check.low.value), at(check.high.value)];
  return ends[0] < ends[1] ? ends : [ends[1], ends[0]];
}
