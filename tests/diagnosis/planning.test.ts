import { describe, expect, it } from 'vitest';
import { jobTable, type Option, strategyOf } from '../../shared/diagnosis/strategy.ts';
import { twoGauges } from '../two-gauges.ts';
import { chanceOf, judgeCase } from './rules.ts';

const job = (
  id: string,
  cost: number,
  cures: Record<string, number>,
  lastResort?: true,
  mendsNothing?: true,
): Option =>
  ({
    id,
    parts: [],
    cures: new Map(Object.entries(cures)),
    job: {
      by: 'householder',
      minutes: cost,
      money: 0,
      perPart: false,
      ...(lastResort && { lastResort }),
      ...(mendsNothing && { mendsNothing }),
    },
  }) as unknown as Option;

const pricing = {
  of: (option: { minutes: number }) => option.minutes,
  perMinute: 1,
  there: new Set(['householder'] as const),
} as never;

describe('the order of least expected cost', () => {
  // p over c: a (0.5, 10), b (0.3, 2), c (0.2, 5) → b, a, c at 10.0; by probability alone 12.0, the worst order 13.6
  // (rule of Kadane & Simon 1977 as used by Heckerman, Breese & Rommelse, CACM 38(3), 1995; figures by ECR = Σ cᵢ(1 − Σ pⱼ)).
  it('takes the highest chance over cost first, and costs what the formula says', () => {
    const worlds = [{ causes: ['x'] }, { causes: ['y'] }, { causes: ['z'] }];
    const options = [
      job('a', 10, { x: 1 }),
      job('b', 2, { y: 1 }),
      job('c', 5, { z: 1 }),
      job('last', 1000, {}, true),
    ];
    const strategy = strategyOf(jobTable(worlds, options, pricing), [0.5, 0.3, 0.2], pricing);
    expect(strategy.steps.map((step) => step.option.id)).toEqual(['b', 'a', 'c']);
    expect(strategy.expectedCost).toBeCloseTo(10, 9);
  });

  it('goes straight to the last resort where trying costs more than it saves', () => {
    const worlds = [{ causes: ['x'] }, { causes: ['y'] }];
    const options = [job('dear', 90, { x: 1 }), job('last', 100, {}, true)];
    const strategy = strategyOf(jobTable(worlds, options, pricing), [0.2, 0.8], pricing);
    expect(strategy.steps.map((step) => step.option.id)).toEqual(['last']);
    // Finding it, and mending x in one case of five.
    expect(strategy.expectedCost).toBeCloseTo(100 + 0.2 * 90, 9);
  });

  it('needs both jobs where two faults are there together', () => {
    const options = [job('a', 10, { x: 1 }), job('b', 10, { y: 1 }), job('last', 1000, {}, true)];
    const strategy = strategyOf(jobTable([{ causes: ['x', 'y'] }], options, pricing), [1], pricing);
    expect(strategy.steps.map((step) => step.option.id).sort()).toEqual(['a', 'b']);
    expect(strategy.expectedCost).toBeCloseTo(20, 9);
  });

  it('leaves nothing to itself where something with it wants mending', () => {
    const leave = job('leave', 1, { harmless: 1 }, undefined, true);
    const order = (causes: readonly string[]) => {
      const table = jobTable([{ causes }], [leave, job('last', 100, {}, true)], pricing);
      return strategyOf(table, [1], pricing).steps.map((step) => step.option.id);
    };
    expect(order(['harmless'])).toEqual(['leave']);
    expect(order(['worn', 'harmless'])).toEqual(['last']);
  });
});

describe('the agent’s decision', () => {
  it('settles a blocked cartridge on the telephone', () => {
    const result = judgeCase(twoGauges, [
      { question: 'complaint', value: ['weak'] },
      { question: 'readings', value: { taps: 'closed', bar: { G1: 3, G2: 3 } } },
      { question: 'readings', value: { taps: { open: 1 }, bar: { G1: 3, G2: 0.6 } } },
    ]);
    expect(result.dispatch).toMatchObject({
      decision: 'phone',
      who: null,
      van: [],
      priority: 'normal',
    });
  });

  it('sends somebody with the right parts to a pump that hums, at once', () => {
    const result = judgeCase(twoGauges, [
      { question: 'complaint', value: ['no-water'] },
      { question: 'pump-open', value: 'hums' },
    ]);
    expect(result.causes[0]?.id).toBe('pump-seized');
    expect(result.dispatch.decision).toBe('send');
    expect(result.dispatch.priority).toBe('urgent');
    expect(result.dispatch.oneVisit).toBeGreaterThan(0.3);
    expect(result.cautions.map((c) => c.id)).toContain('pump-off-now');
  });
});

describe('not knowing', () => {
  it('a gauge that rises along the line is questioned, naming both gauges', () => {
    const result = judgeCase(twoGauges, [
      { question: 'readings', value: { taps: 'closed', bar: { G1: 3, G2: 3 } } },
      { question: 'readings', value: { taps: { open: 1 }, bar: { G1: 1, G2: 2.8 } } },
    ]);
    const warning = result.warnings.find((w) => w.id === 'reading-rises');
    expect(warning?.text).toMatch(/G2.*G1/s);
  });

  it('a gauge far off at rest is questioned', () => {
    const result = judgeCase(twoGauges, [
      { question: 'readings', value: { taps: 'closed', bar: { G1: 3.4, G2: 1.2 } } },
    ]);
    expect(result.warnings.map((w) => w.id)).toContain('gauge-differs-at-rest');
    expect(chanceOf(result, 'gauge-faulty')).toBeGreaterThan(
      chanceOf(judgeCase(twoGauges, []), 'gauge-faulty'),
    );
  });

  it('says which question could still change the picture', () => {
    const result = judgeCase(twoGauges, [
      { question: 'danger', value: [] },
      { question: 'household', value: [] },
      { question: 'complaint', value: ['weak'] },
      { question: 'onset', value: 'gradual' },
      { question: 'pump-open', value: 'weak-steady' },
      { question: 'pump-closed', value: 'stays-off' },
      { question: 'smell', value: 'none' },
      { question: 'taste', value: 'none' },
      { question: 'look', value: 'clear' },
      { question: 'tank-level', value: 'full' },
      { question: 'readings', value: { taps: 'closed', bar: { G1: 'unknown', G2: 'unknown' } } },
      { question: 'readings', value: { taps: { open: 1 }, bar: { G1: 'unknown', G2: 'unknown' } } },
    ]);
    expect(result.remarks.length).toBeGreaterThan(0);
  });
});
