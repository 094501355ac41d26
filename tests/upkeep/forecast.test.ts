import { describe, expect, it } from 'vitest';
import { evenFlow, flowController, normalFlow, pressureSwitch, score, usual } from './trials.ts';
import { growths } from './virtual.ts';

/**
 * Virtual records with a known truth. 64 runs tell a coverage of 80 % from 65 % and 95 % about (one standard error is
 * 5 points); the 500 runs with narrow bounds are `bench/upkeep.ts`.
 */
const SEED = 11;
const RUNS = 64;

const steady = [growths.cake, growths.intermediate];

describe(`dates of virtual records with known loading (seed ${SEED}, ${RUNS} runs)`, () => {
  it('hold the true date about 8 times in 10, within 15 days, by an interval under 60 days, two months ahead', () => {
    const told = score(SEED, RUNS, (run) => ({
      ...usual,
      growth: steady[run % 2] ?? usual.growth,
      control: run % 4 < 2 ? pressureSwitch : flowController,
      sloppy: run % 8 < 4,
      flowError: run % 16 < 8 ? evenFlow : normalFlow,
    }));
    expect(told.undated).toBe(0);
    expect(told.held).toBeGreaterThan(0.68);
    expect(told.held).toBeLessThan(0.94);
    expect(told.medianErrorDays).toBeLessThan(15);
    expect(told.medianIntervalDays).toBeLessThan(60);
    expect(Math.abs(told.medianBiasDays)).toBeLessThan(8);
  }, 120_000);

  it('tell no change of pace where there is none', () => {
    expect(score(SEED + 1, 24, () => usual).falseAlarms).toBeLessThanOrEqual(1);
  }, 120_000);

  it('are still told where nobody ever measured the flow', () => {
    const told = score(SEED + 2, 24, () => ({ ...usual, flowMeasured: 0 }));
    expect(told.undated).toBe(0);
    expect(told.medianErrorDays).toBeLessThan(25);
  }, 120_000);
});
