import { describe, expect, it } from 'vitest';
import { cleanDropBar, segmentReadings } from '../../shared/diagnosis/segment-readings.ts';
import type { Worlds } from '../../shared/diagnosis/worlds.ts';
import { solveLine } from '../../shared/hydraulics/line.ts';
import { m3sToLpm } from '../../shared/hydraulics/units.ts';
import { twoGauges } from '../two-gauges.ts';
import { type Answers, judged } from './judged.ts';

/** A third gauge with nothing but a gauge in between, so that one stretch can lose nothing. */
const plant = {
  ...twoGauges,
  line: twoGauges.line.toSpliced(6, 0, { id: 'G3', kind: 'gauge' }),
};
type Bar = number | 'unknown';
const read = (taps: unknown, G1: Bar, G2: Bar, more: object = {}) => ({
  question: 'readings',
  value: { taps, bar: { G1, G2, G3: 'unknown' }, ...more },
});
const one = { open: 1 };
const segments = (answers: Answers) => {
  const { judgement, worlds } = judged(plant, answers);
  return { told: segmentReadings(judgement, worlds), judgement, worlds };
};

describe('the clean drop between two places', () => {
  const { model } = judged(plant, []).judgement;
  const at = (id: string) => model.plant.line.findIndex((part) => part.id === id);

  it('is that of the solved line at its flow', () => {
    const solved = solveLine(model.line, one);
    const bar = (id: string) => (solved.points.find(({ after }) => after === id)?.pa ?? 0) / 1e5;
    const drop = cleanDropBar(model, at('G1'), at('G2'), m3sToLpm(solved.flowM3s), 3);
    expect(drop).toBeGreaterThan(0.005);
    expect(drop).toBeCloseTo(bar('G1') - bar('G2'), 6);
  });

  it('is none where nothing stands between', () => {
    expect(cleanDropBar(model, at('G2'), at('G3'), 20, 3)).toBe(0);
    expect(cleanDropBar(model, at('G1'), at('G1') + 1, 20, 3)).toBe(0);
  });
});

describe('a stretch read with water running', () => {
  it('at a measured flow is so many times the clean one', () => {
    const { told, judgement } = segments([read(one, 2.7, 1.5, { flowLpm: 9.04 })]);
    const { model } = judgement;
    const at = (id: string) => model.plant.line.findIndex((part) => part.id === id);
    const clean = cleanDropBar(model, at('G1'), at('G2'), 9.04, 3);
    expect(told).toMatchObject([{ from: 'G1', to: 'G2', flowLpm: 9, dropBar: 1.2, taps: one }]);
    expect(told[0]?.timesClean).toBeCloseTo(1.2 / clean, 1);
    expect(told[0]?.parts).toEqual(['sed-1']);
  });

  it('is told no more once a part in it was worked on, until it is read again; others are', () => {
    const before = [
      read(one, 2.7, 0.5, { flowLpm: 9 }),
      read({ open: 2 }, 2.1, 0.2, { flowLpm: 14 }),
    ];
    const done = { question: 'work-done', value: { job: 'change-sediment', parts: ['sed-1'] } };
    expect(segments(before).told).toHaveLength(2);
    expect(segments([...before, done]).told).toEqual([]);
    const again = segments([...before, done, read({ open: 2 }, 2.7, 2.5, { flowLpm: 20 })]);
    expect(again.told.map(({ taps, dropBar }) => [taps, dropBar])).toEqual([[{ open: 2 }, 0.2]]);
    const elsewhere = { question: 'work-done', value: { job: 'change-pump', parts: ['pump'] } };
    expect(segments([...before, elsewhere]).told).toHaveLength(2);
  });

  it('that rises is no times clean; one that nothing stands in has no clean drop', () => {
    expect(segments([read(one, 2, 2.5, { flowLpm: 9 })]).told[0]).toMatchObject({
      ...{ dropBar: -0.5, timesClean: 0 },
    });
    const value = { taps: one, bar: { G1: 'unknown', G2: 2, G3: 1.9 }, flowLpm: 9 };
    expect(segments([{ question: 'readings', value }]).told[0]).toMatchObject({
      ...{ from: 'G2', to: 'G3', parts: [], timesClean: null, flowLpm: 9 },
    });
  });

  it('without a flow has the mean of the likely ones, each given the readings', () => {
    const { told, judgement, worlds } = segments([read(one, 2.7, 1.5)]);
    const state = judgement.measured.open.get('open 1');
    let [flow, known] = [0, 0];
    for (const { h, probability, effects } of worlds.list) {
      if (h < 0) continue;
      const weights = [...(state?.flowWeights(effects) ?? [])];
      const total = weights.reduce((sum, w) => sum + w, 0);
      const mean = weights.reduce((sum, w, j) => sum + w * (judgement.model.curves.lpm[j] ?? 0), 0);
      flow += (probability * mean) / total;
      known += probability;
    }
    expect(told[0]?.flowLpm).toBeCloseTo(flow / known, 1);
    expect(told[0]?.timesClean).toBeGreaterThan(1);
    // nothing but the unlisted left: no flow to tell
    const list = worlds.list.filter(({ h }) => h < 0);
    const [bare] = segmentReadings(judgement, { ...worlds, list } as Worlds);
    expect(bare).toMatchObject({ flowLpm: null, timesClean: null, dropBar: 1.2 });
  });

  it('with a tap opened by half has no flow', () => {
    const { told } = segments([read('part-open', 2.7, 1.5)]);
    expect(told).toMatchObject([{ taps: 'part-open', flowLpm: null, timesClean: null }]);
    const measured = segments([read('part-open', 2.7, 1.5, { flowLpm: 4 })]).told;
    expect(measured[0]?.flowLpm).toBe(4);
  });

  it('is told once a state, in their order; taps shut are none', () => {
    const { told } = segments([
      read({ open: 2 }, 2.4, 1.5),
      read('closed', 3, 3),
      read(one, 2.7, 1.5),
    ]);
    expect(told.map(({ taps }) => taps)).toEqual([one, { open: 2 }]);
    expect(segments([read(one, 2.7, 'unknown')]).told).toEqual([]);
  });

  it('smaller than its uncertainty says nothing, whichever way', () => {
    const small = (G2: number) => segments([read(one, 2.7, G2)]).told[0]?.tooSmall;
    expect([small(2.65), small(2.75), small(1.5), small(3.9)]).toEqual([true, true, false, false]);
  });
});
