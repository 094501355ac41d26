import { describe, expect, it } from 'vitest';
import { fallingRoot } from '../../shared/hydraulics/root.ts';

describe('the root finder', () => {
  it.each([
    ['a line', (x: number) => 1 - x, 0, 10, 1],
    ['a parabola', (x: number) => 2 - x * x, 0, 10, Math.SQRT2],
    ['a steep wall', (x: number) => 1 - x ** 21, 0, 5, 1],
    ['a step', (x: number) => (x < 3 ? 1 : -1), 0, 10, 3],
    ['a plateau', (x: number) => Math.max(0, 4 - x) - 1e-9, 0, 10, 4],
    ['a cusp', (x: number) => -Math.cbrt(x - 2), 0, 1e6, 2],
  ])('finds %s', (_, f, low, high, root) => {
    expect(fallingRoot(f, low, high)).toBeCloseTo(root, 6);
  });

  it('gives an end of the bracket where nothing lies inside it', () => {
    expect(fallingRoot((x) => -1 - x, 0, 1)).toBe(0);
    expect(fallingRoot((x) => 5 - x, 0, 1)).toBe(1);
    expect(fallingRoot((x) => 1 - x, 3, 3)).toBe(3);
  });

  it('ends whatever the function does, and inside the bracket', () => {
    let calls = 0;
    const wild = (x: number) => {
      calls++;
      return Math.sin(x * 1e9) + (x < 0.5 ? 2 : -2);
    };
    const root = fallingRoot(wild, 0, 1);
    expect(calls).toBeLessThan(110);
    expect(root).toBeGreaterThanOrEqual(0);
    expect(root).toBeLessThanOrEqual(1);
    for (const bad of [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]) {
      const end = fallingRoot(() => bad, 0, 1);
      expect(end).toBeGreaterThanOrEqual(0);
      expect(end).toBeLessThanOrEqual(1);
    }
  });
});
