import { describe, expect, it } from 'vitest';
import { twoGauges } from '../two-gauges.ts';
import { chanceOf, judgeCase } from './rules.ts';

/** Common practice: a pointer is misread now and then; a gauge that is wrong for good is wrong in every tap state. */
const plant = {
  ...twoGauges,
  line: twoGauges.line.map((part) =>
    part.kind === 'gauge' ? { ...part, rangeBar: 6, divisionBar: 0.1 } : part,
  ),
};
const readings = (taps: unknown, G1: number, G2: number) => ({
  question: 'readings',
  value: { taps, bar: { G1, G2 } },
});

describe('a reading at odds with the others', () => {
  it('is a slip where the same gauge reads right in every other state', () => {
    const result = judgeCase(plant, [
      readings('closed', 2.4, 3.3),
      readings({ open: 1 }, 3.3, 3.2),
      readings({ open: 2 }, 3, 2.75),
    ]);
    expect(chanceOf(result, 'gauge-faulty')).toBeLessThan(0.5);
  });

  it('is a faulty gauge where it is off alike in every state', () => {
    const result = judgeCase(plant, [
      readings('closed', 2.4, 3.3),
      readings({ open: 1 }, 2.4, 3.2),
      readings({ open: 2 }, 2.1, 2.75),
    ]);
    expect(chanceOf(result, 'gauge-faulty')).toBeGreaterThan(0.9);
  });

  it('with water running is a slip where the rise along the line is gone with more taps open', () => {
    const result = judgeCase(plant, [
      readings('closed', 3.3, 3.3),
      readings({ open: 1 }, 2.6, 3.2),
      readings({ open: 2 }, 3, 2.75),
    ]);
    expect(chanceOf(result, 'gauge-faulty')).toBeLessThan(0.2);
  });
});
