import { describe, expect, it } from 'vitest';
import type { Effect } from '../../shared/diagnosis/effects.ts';
import type { Judgement } from '../../shared/diagnosis/judge.ts';
import { NOTHING } from '../../shared/diagnosis/signs.ts';
import { worldsOf } from '../../shared/diagnosis/worlds.ts';
import { readyMade } from '../../shared/plant/ready-made.ts';
import { twoGauges } from '../two-gauges.ts';
import { type Answers, judged } from './judged.ts';

/** The likeliest ways things may be stand for all: against the whole joint table. */
const weak: Answers = [{ question: 'complaint', value: ['weak'] }];
const readings = (taps: unknown, ...bar: number[]) => ({
  question: 'readings',
  value: { taps, bar: Object.fromEntries(bar.map((value, i) => [`G${i + 1}`, value])) },
});
const twoStages = {
  ...twoGauges,
  line: twoGauges.line.toSpliced(5, 0, {
    id: 'sed-2',
    kind: 'filter',
    medium: 'sediment',
  } as never),
};
const cases: [string, unknown, Answers][] = [
  ['nothing said', twoGauges, []],
  ['weak', twoGauges, weak],
  ['read', twoGauges, [readings('closed', 3, 3), readings({ open: 1 }, 2.9, 1.2)]],
  ['two stages, read', twoStages, [readings({ open: 1 }, 2.9, 1.2)]],
  ...readyMade.slice(0, 2).map(({ id, plant }): [string, unknown, Answers] => [id, plant, weak]),
];

describe.each(cases)('%s', (_, plant, answers) => {
  const { judgement } = judged(plant, answers);
  const { hydraulic, quality, posterior, candidates, evidence, measured } = judgement;
  const { list, hSets, qSets } = worldsOf(judgement);
  const listed = list.slice(0, -1);
  const columns = quality.sets.length;

  it('are the likeliest pairs of sets in turn, until all but a hundredth and a half is told or sixty are', () => {
    const ranked = [...posterior.joint].sort((a, b) => b - a);
    let kept = posterior.notListed;
    const expected: number[] = [];
    for (const probability of ranked) {
      if (expected.length >= 60 || kept > 0.985 || probability <= 0) break;
      expected.push(probability);
      kept += probability;
    }
    const total = expected.reduce((sum, p) => sum + p, posterior.notListed);
    expect(listed.map(({ probability }) => probability)).toEqual(
      expected.map((p) => expect.closeTo(p / total, 12)),
    );
    expect(list.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 12);
    expect(list.at(-1)).toEqual({
      ...{ causes: ['not-listed'], h: -1, q: -1, effects: [] },
      probability: expect.closeTo(posterior.notListed / total, 12),
    });
  });

  it('name the causes of their two sets, and nothing wrong where there are none', () => {
    const total = list.reduce((sum, { h, q, probability }) => {
      if (h < 0) return sum;
      const row = hydraulic.sets.indexOf(hSets[h] ?? []);
      const column = quality.sets.indexOf(qSets[q] ?? []);
      return sum + (posterior.joint[row * columns + column] ?? 0) / probability;
    }, 0);
    for (const { causes, h, q, probability } of listed) {
      const [hSet, qSet] = [hSets[h] ?? [], qSets[q] ?? []];
      const named = [
        ...hSet.map((c) => hydraulic.causes[c]),
        ...qSet.map((c) => quality.causes[c]),
      ];
      expect(causes).toEqual(named.length > 0 ? named : [NOTHING]);
      const joint =
        posterior.joint[hydraulic.sets.indexOf(hSet) * columns + quality.sets.indexOf(qSet)] ?? 0;
      // one scale for all of them
      expect(joint / probability).toBeCloseTo(total / listed.length, 9);
    }
    expect(new Set(hSets).size).toBe(hSets.length);
    expect(new Set(qSets).size).toBe(qSets.length);
  });

  it('hold the severity that fits best, in the place that brings most, beside those already there', () => {
    for (const { h, effects } of listed) {
      const set = hSets[h] ?? [];
      const row = hydraulic.sets.indexOf(set);
      const expected: Effect[] = [];
      for (const cause of set) {
        const places = candidates.flatMap((candidate, i) =>
          candidate.cause === cause
            ? [{ candidate, brings: evidence.byCandidate[i]?.[row] ?? 0 }]
            : [],
        );
        const best = places.reduce((a, b) => (b.brings > a.brings ? b : a)).candidate;
        const fits = best.coarse.map(
          (effect) => effect.weight * (measured.likelihoods([...expected, effect])[0] ?? 0),
        );
        const at = fits.indexOf(Math.max(...fits));
        expected.push(best.coarse[at] as Effect);
      }
      expect(effects.map(({ id }) => id)).toEqual(expected.map(({ id }) => id));
    }
    expect(listed.some(({ effects }) => effects.length > 0)).toBe(true);
  });
});

it('what cannot be is no world', () => {
  const { judgement } = judged(twoGauges, weak);
  const joint = judgement.posterior.joint.map((p, i) => (i < 3 ? p : 0));
  const sure = { ...judgement, posterior: { ...judgement.posterior, joint } } as Judgement;
  expect(worldsOf(sure).list).toHaveLength(4);
});
