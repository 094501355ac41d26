import { describe, expect, it } from 'vitest';
import { fitRun, type Run } from '../../shared/upkeep/fit.ts';
import { findPaceChange } from '../../shared/upkeep/pace.ts';
import { seeded } from '../seeded.ts';
import { normal } from './virtual.ts';

const CLEAN = 2e7;

/** Monthly points of a course in times clean, with errors as they are stated. */
function runOf(times: (month: number) => number, months: number, seed: number): Run {
  const random = seeded(seed);
  const points = Array.from({ length: months }, (_, month) => {
    const uByDrop = 0.2 * CLEAN;
    const uByFlow = 0.03;
    const truth = times(month + 1) * CLEAN;
    const u = Math.hypot(uByDrop, uByFlow * truth);
    const resistance = truth + u * normal(random);
    return { day: 30 * (month + 1), resistance, uByDrop, uByFlow, housings: 0, perPa: 0 };
  });
  return { from: 0, points, start: { resistance: CLEAN, logSd: 0.12 }, keptPa: 0, stills: [] };
}

const changeOf = (run: Run) => {
  const fit = fitRun(run);
  return fit && findPaceChange(run, fit);
};

const SEEDS = Array.from({ length: 10 }, (_, i) => i + 1);
const told = (times: (month: number) => number, kind: string | null, months = 12) =>
  SEEDS.filter((seed) => (changeOf(runOf(times, months, seed))?.kind ?? null) === kind).length;

describe('a change of pace (seeds 1 to 10)', () => {
  it('is told after a storm that triples the pace', () => {
    expect(told((m) => 1 + m + Math.max(0, m - 8) * 4, 'faster')).toBeGreaterThanOrEqual(8);
  });

  it('is told as a fall when a cartridge tears', () => {
    expect(told((m) => (m <= 8 ? 1 + m : 2), 'fell')).toBeGreaterThanOrEqual(9);
  });

  it('is told as slower when dirt stops coming', () => {
    expect(told((m) => 1 + 3 * Math.min(m, 7), 'slower', 15)).toBeGreaterThanOrEqual(7);
  });

  it.each([
    ['straight', (m: number) => 1 + m],
    ['by a factor', (m: number) => 1.25 ** m],
    ['none at all', () => 1],
  ])('is not told while the loading goes on (%s)', (_, times) => {
    expect(told(times, null)).toBeGreaterThanOrEqual(9);
  });

  it('is not told of one reading far off', () => {
    expect(told((m) => (m === 7 ? 2 : 1 + m), null)).toBeGreaterThanOrEqual(8);
  });
});
