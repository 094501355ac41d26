import { below } from '../diagnosis/normal.ts';
import { fallingRoot } from '../hydraulics/root.ts';

/** Even draws from weighted things without chance: the same input gives the same draws. */

const GOLDEN = 0.6180339887498949;

/**
 * `count` draws in proportion to the weights (systematic resampling at the middles of even strata).
 * @param weights sum to 1
 */
export function evenDraws<T>(
  items: readonly T[],
  weightOf: (item: T) => number,
  count: number,
): T[] {
  const draws: T[] = [];
  let passed = 0;
  for (const item of items) {
    passed += weightOf(item);
    while (draws.length < count && (draws.length + 0.5) / count <= passed) draws.push(item);
  }
  const last = items.at(-1);
  while (last !== undefined && draws.length < count) draws.push(last);
  return draws;
}

/** Numbers in (0, 1), evenly spread, one after another unlike (additive recurrence); `stream` tells sequences apart. */
export function evenNumber(index: number, stream: number): number {
  return ((index + 1) * (GOLDEN + stream * Math.SQRT2)) % 1;
}

/** The place of each value among all, 0 for the least. */
export function ranksOf(values: readonly number[]): number[] {
  const ranks = values.map(() => 0);
  const sorted = values.map((value, i) => ({ value, i })).sort((a, b) => a.value - b.value);
  for (const [rank, { i }] of sorted.entries()) ranks[i] = rank;
  return ranks;
}

/** Value of a standard normal variable under which a share `p` (0–1) lies. */
export function normalQuantile(p: number): number {
  return fallingRoot((z) => p - below(z), -8, 8);
}

/** The value under which a share of the weight lies; `values` need no order. */
export function quantileOf(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  const at = share * sorted.length - 0.5;
  const low = sorted[Math.max(0, Math.floor(at))] ?? Number.NaN;
  const high = sorted[Math.min(sorted.length - 1, Math.floor(at) + 1)] ?? Number.NaN;
  if (low === high || !Number.isFinite(high)) return at - Math.floor(at) > 0.5 ? high : low;
  return low + (high - low) * Math.min(1, Math.max(0, at - Math.floor(at)));
}
