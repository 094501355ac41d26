import { describe, expect, it } from 'vitest';
import { below, density, evenDensity } from '../../shared/diagnosis/normal.ts';

describe('the normal distribution', () => {
  // Any printed table of the standard normal, to five places.
  it.each([
    [-3, 0.00135],
    [-1.645, 0.04998],
    [-1, 0.15866],
    [0, 0.5],
    [0.5, 0.69146],
    [1, 0.84134],
    [1.96, 0.975],
    [3, 0.99865],
    [9, 1],
    [-9, 0],
  ])('below %d lies %d', (z, share) => {
    expect(below(z)).toBeCloseTo(share, 5);
  });

  it('has its table’s heights, stretched by the standard deviation', () => {
    expect(density(0, 0, 1)).toBeCloseTo(0.39894, 5);
    expect(density(7, 5, 2)).toBeCloseTo(0.24197 / 2, 5);
  });

  it('of an even spread is flat inside, half at its ends, and sums to one', () => {
    expect(evenDensity(3, 1, 5, 0.1)).toBeCloseTo(1 / 4, 6);
    expect(evenDensity(1, 1, 5, 0.1)).toBeCloseTo(1 / 8, 6);
    expect(evenDensity(5, 1, 5, 0.1)).toBeCloseTo(1 / 8, 6);
    let sum = 0;
    for (let x = -3; x < 9; x += 0.01) sum += 0.01 * evenDensity(x, 1, 5, 0.7);
    expect(sum).toBeCloseTo(1, 4);
    expect(evenDensity(2.2, 2, 2, 0.4)).toBeCloseTo(density(2.2, 2, 0.4), 12);
  });
});
