import { describe, expect, it } from 'vitest';
import { calibration, quantile, shareOf } from '../../src/assess/figures.ts';

describe('figures of a run', () => {
  it('what is said as often as it is seen has no calibration error', () => {
    const claims = Array.from({ length: 100 }, (_, i) => [0.25, i < 25] as const);
    expect(calibration(claims).error).toBeCloseTo(0, 12);
  });

  it('the error is the mean gap between said and seen, weighted by how much lies in each bin', () => {
    // 30 claims of 0.9 of which 15 come true, 70 of 0.05 of which 14 do: 0.3·0.4 + 0.7·0.15.
    const sure = Array.from({ length: 30 }, (_, i) => [0.9, i < 15] as const);
    const unsure = Array.from({ length: 70 }, (_, i) => [0.05, i < 14] as const);
    expect(calibration([...sure, ...unsure]).error).toBeCloseTo(0.3 * 0.4 + 0.7 * 0.15, 12);
  });

  it('a probability of one falls into the last of ten bins', () => {
    expect(calibration([[1, true]]).bins.map((b) => b.count)).toEqual([
      0, 0, 0, 0, 0, 0, 0, 0, 0, 1,
    ]);
  });

  it('quantiles are nearest ranks', () => {
    expect(quantile([4, 1, 3, 2], 0.5)).toBe(2);
    expect(quantile([4, 1, 3, 2], 0.9)).toBe(4);
    expect(quantile([], 0.5)).toBe(0);
  });

  it('a share carries the number it is of', () => {
    expect(shareOf([true, false, true, true])).toEqual({ share: 0.75, of: 4 });
  });
});
