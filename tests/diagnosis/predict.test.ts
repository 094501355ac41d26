import { describe, expect, it } from 'vitest';
import { tapsKey } from '../../shared/case/taps.ts';
import { houseCurve } from '../../shared/diagnosis/flow-grid.ts';
import { holdChance, tankChance } from '../../shared/diagnosis/measured.ts';
import { type Ask, type Outcomes, outcomesOf } from '../../shared/diagnosis/predict.ts';
import { predictReadings } from '../../shared/diagnosis/predict-readings.ts';
import { closedChance, openChance } from '../../shared/diagnosis/pump-behaviour.ts';
import { NOTHING } from '../../shared/diagnosis/signs.ts';
import { flowChances } from '../../shared/diagnosis/unread-state.ts';
import type { Worlds } from '../../shared/diagnosis/worlds.ts';
import { readyMade } from '../../shared/plant/ready-made.ts';
import { twoGauges } from '../two-gauges.ts';
import { type Answers, judged } from './judged.ts';
import { ruleSet } from './rules.ts';

/** What may be answered, under every world that is still possible: chances that exclude each other. */
const weak: Answers = [{ question: 'complaint', value: ['weak'] }];
const read: Answers = [
  ...weak,
  { question: 'readings', value: { taps: 'closed', bar: { G1: 3, G2: 3 } } },
  { question: 'readings', value: { taps: { open: 1 }, bar: { G1: 2.9, G2: 1.2 } } },
];
const cases: [string, ReturnType<typeof judged>][] = [
  ['two gauges, nothing said', judged(twoGauges, [])],
  ['two gauges, weak', judged(twoGauges, weak)],
  ['two gauges, read', judged(twoGauges, read)],
  ...readyMade.map(({ id, plant }): [string, ReturnType<typeof judged>] => [
    id,
    judged(plant, weak),
  ]),
];
const asks: Ask[] = Object.entries(ruleSet.questions).flatMap(([question, { kind }]): Ask[] =>
  kind === 'readings'
    ? (['closed', { open: 1 }] as const).map((taps) => ({ question, taps }))
    : [{ question, taps: null }],
);
const sums = (outcomes: Outcomes, { list }: Worlds) =>
  list.map((_, w) => outcomes.reduce((sum, outcome) => sum + (outcome[w] ?? 0), 0));
const kindOf = (kind: string) => {
  const found = Object.entries(ruleSet.questions).find(([, q]) => q.kind === kind);
  if (!found) throw new Error(`no question of kind ${kind}`);
  return { question: found[0], taps: null };
};
const pumpAsk = (pump: 'running' | 'resting') => {
  const found = Object.entries(ruleSet.questions).find(([, q]) => q.pump === pump);
  if (!found) throw new Error(`no question that hears the pump ${pump}`);
  return { id: found[0], answers: found[1].answers };
};

describe.each(cases)('%s', (_, { judgement, worlds }) => {
  it('every answer has a chance under every world, and all of them together the whole', () => {
    for (const ask of asks) {
      const outcomes = outcomesOf(ask, judgement, worlds);
      if (outcomes.length === 0) continue;
      for (const outcome of outcomes)
        for (const chance of outcome) expect(chance, ask.question).toBeGreaterThanOrEqual(0);
      for (const sum of sums(outcomes, worlds)) expect(sum, ask.question).toBeCloseTo(1, 6);
    }
  });

  it('what the pump does is that of each world’s own source', () => {
    const { model, measured } = judgement;
    const resting = pumpAsk('resting');
    const rest = outcomesOf({ question: resting.id, taps: null }, judgement, worlds);
    const running = pumpAsk('running');
    const run = outcomesOf({ question: running.id, taps: null }, judgement, worlds);
    const house = houseCurve(model.line, model.curves, { open: 1 }, model.assumed);
    const clean = flowChances({ curves: model.curves, house }, model.sourceWith([]), [], 1);
    const cleanLpm = Math.max(
      1,
      clean.reduce((sum, chance, j) => sum + chance * (model.curves.lpm[j] ?? 0), 0),
    );
    worlds.list.forEach(({ h, effects }, w) => {
      const source = model.sourceWith(effects);
      const state = measured.open.get(tapsKey({ open: 1 }));
      const weights = state
        ? state.flowWeights(effects)
        : flowChances({ curves: model.curves, house }, source, effects, 1.6);
      const total = weights.reduce((sum, weight) => sum + weight, 0);
      const close = (said: Outcomes, chances: readonly number[]) => {
        const whole = chances.reduce((sum, chance) => sum + chance, 0);
        const possible = chances.filter((chance) => chance > 0).length;
        chances.forEach((chance, a) => {
          const expected = h < 0 && chance > 0 ? 1 / possible : chance / whole;
          // flows of less than one in ten thousand are left out
          expect(said[a]?.[w]).toBeCloseTo(expected, 2);
        });
      };
      close(
        rest,
        resting.answers.map((answer) => closedChance(source, answer)),
      );
      close(
        run,
        running.answers.map((answer) =>
          // cycling, its times not told, is one of the two kinds of cycling
          answer === 'cycles'
            ? 0
            : weights.reduce(
                (sum, weight, j) =>
                  sum + (weight / total) * openChance(source, j, answer, cleanLpm),
                0,
              ),
        ),
      );
    });
  });

  it('the tank and what holds its pressure are those of each world', () => {
    const tank = kindOf('tank-level');
    const levels = outcomesOf(tank, judgement, worlds);
    const answers = ruleSet.questions[tank.question]?.answers ?? [];
    const holds = Object.entries(ruleSet.questions).filter(([, q]) => q.kind === 'pressure-loss');
    worlds.list.forEach(({ h, effects }, w) => {
      answers.forEach((answer, a) => {
        expect(levels[a]?.[w]).toBe(h < 0 ? 0.25 : tankChance(answer, effects));
      });
    });
    for (const [question, { isolated }] of holds) {
      const [kept] = outcomesOf({ question, taps: null }, judgement, worlds);
      worlds.list.forEach(({ h, effects }, w) => {
        const source = judgement.model.sourceWith(effects);
        const [tight, lost] = [0, 1].map((bar) => holdChance(bar, 10, isolated === true, source));
        const expected = h < 0 ? 0.5 : (tight ?? 0) / ((tight ?? 0) + (lost ?? 0));
        expect(kept?.[w]).toBeCloseTo(expected, 12);
      });
    }
    expect(holds.length).toBeGreaterThan(1);
  });
});

const worldOf = ({ list }: Worlds, cause: string): number => {
  const at = list.findIndex(({ causes }) => causes.length === 1 && causes[0] === cause);
  if (at < 0) throw new Error(`${cause} is not among the likely worlds`);
  return at;
};
const [, { judgement, worlds }] = cases[1] as (typeof cases)[number];

describe('what a measurement would tell', () => {
  it('the vessel’s charge: water at its valve speaks for a full vessel', () => {
    const [water] = outcomesOf(kindOf('precharge'), judgement, worlds);
    worlds.list.forEach(({ h, effects }, w) => {
      const full = judgement.model.sourceWith(effects).waterlogged;
      const expected = h < 0 ? 0.2 : full ? 0.9 : 0.01;
      expect(water?.[w]).toBeCloseTo(expected, 12);
    });
    expect(worlds.list.some(({ effects }) => judgement.model.sourceWith(effects).waterlogged)).toBe(
      true,
    );
  });

  it('with the cartridge out the flow comes back where it was the restriction, and nowhere else', () => {
    const [restored, same] = outcomesOf(kindOf('housing'), judgement, worlds);
    const blocked = worldOf(worlds, 'sediment-blocked');
    expect(restored?.[blocked]).toBe(0.9);
    expect(same?.[blocked]).toBe(0.1);
    const nothing = worldOf(worlds, NOTHING);
    expect(restored?.[nothing]).toBe(0.1);
    expect(same?.[nothing]).toBe(0.9);
    const unlisted = worlds.list.findIndex(({ h }) => h < 0);
    expect(restored?.[unlisted]).toBe(0.5);
  });

  it('what is no evidence, and what nobody asks, tells nothing', () => {
    const asked = Object.entries(ruleSet.questions).find(
      ([, q]) => q.combine === 'none' && q.kind !== 'dates' && q.kind !== 'hours',
    );
    expect(outcomesOf({ question: asked?.[0] ?? '', taps: null }, judgement, worlds)).toEqual([]);
    expect(outcomesOf({ question: 'no-such-question', taps: null }, judgement, worlds)).toEqual([]);
  });
});

it('something not listed shows anything on the gauges', () => {
  const unlisted = worlds.list.filter(({ h }) => h < 0);
  expect(predictReadings('closed', judgement, { ...worlds, list: unlisted })).toEqual([null]);
});

it('a gauge behind a filter is expected to show less than before it, and no more than the pump holds', () => {
  const expected = (order: readonly string[]) => {
    const parts = {
      G1: { id: 'G1', kind: 'gauge' },
      f: {
        ...{ id: 'f', kind: 'filter', medium: 'sediment' },
        clean: { flowLpm: 20, dropBar: 1.5 },
      },
    } as const;
    const { judgement, worlds } = judged(
      {
        name: 'held',
        line: [
          { id: 'tank', kind: 'tank' },
          { id: 'pump', kind: 'pump', control: { kind: 'variable-speed', setBar: 3 } },
          ...order.map((id) => parts[id as keyof typeof parts]),
          { id: 'house', kind: 'house' },
        ],
      },
      [],
    );
    const nothing = worlds.list.findIndex(({ effects, h }) => h >= 0 && effects.length === 0);
    return predictReadings({ open: 1 }, judgement, worlds)[nothing]?.mean[0] ?? Number.NaN;
  };
  const before = expected(['G1', 'f']);
  const behind = expected(['f', 'G1']);
  expect(before).toBeLessThanOrEqual(3);
  expect(behind).toBeLessThan(before - 0.2);
});
