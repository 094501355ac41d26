import { describe, expect, it } from 'vitest';
import { factsOf } from '../../shared/case/facts.ts';
import { answeredOf, flowKey, questionsIn } from '../../shared/diagnosis/answered.ts';
import { judge } from '../../shared/diagnosis/judge.ts';
import type { RuleSet } from '../../shared/ruleset/schema.ts';
import { twoGauges } from '../two-gauges.ts';
import { type Answers, judged } from './judged.ts';
import { DAY, ruleSet } from './rules.ts';

const line = twoGauges.line.toSpliced(
  6,
  0,
  { id: 'uv', kind: 'uv', lampFittedOn: '2023-01-01' } as never,
  { id: 'carbon', kind: 'filter', medium: 'carbon' } as never,
  { id: 'G3', kind: 'gauge' },
);
const plant = { ...twoGauges, line };
type Bar = number | 'unknown';
const read = (taps: unknown, G1: Bar, G2: Bar, G3: Bar) => ({
  question: 'readings',
  value: { taps, bar: { G1, G2, G3 } },
});
const weak = { question: 'complaint', value: ['weak'] };
const smell = { question: 'smell', value: 'rotten-egg' };
const factsWith = (answers: Answers) => factsOf(plant, answers, ruleSet, { system: DAY });

describe('how likely a cause is', () => {
  const { judgement } = judged(plant, [weak, read({ open: 1 }, 2.7, 1.8, 1.5)]);
  const { hydraulic, quality, posterior, probabilities, suspects } = judgement;
  const columns = quality.sets.length;

  it('is the sum over every pair of sets that it is in', () => {
    const sums = new Map<string, number>();
    hydraulic.sets.forEach((h, i) => {
      quality.sets.forEach((q, j) => {
        const p = posterior.joint[i * columns + j] ?? 0;
        const named = [...h.map((c) => hydraulic.causes[c]), ...q.map((c) => quality.causes[c])];
        for (const cause of named) sums.set(cause ?? '', (sums.get(cause ?? '') ?? 0) + p);
      });
    });
    for (const [cause, sum] of sums) expect(probabilities.get(cause), cause).toBeCloseTo(sum, 9);
    expect(sums.size).toBe(hydraulic.causes.length + quality.causes.length);
    expect(probabilities.get('nothing-wrong')).toBeCloseTo(posterior.joint[0] ?? 0, 12);
    const all = posterior.joint.reduce((sum, p) => sum + p, 0);
    expect(probabilities.get('not-listed')).toBeCloseTo(1 - all, 9);
    const [[due, { probability }] = ['', { probability: 0 }]] = [...suspects.overdue];
    expect(probabilities.get(due)).toBe(probability);
    expect(probabilities.size).toBe(sums.size + 3);
  });

  it('had an answer not been given is that of the case without it', () => {
    const told = [weak, smell, { question: 'look', value: 'brown' }];
    const whole = judged(plant, told).judgement;
    expect([...whole.without.keys()].sort()).toEqual(['complaint', 'look', 'smell']);
    for (const [question, before] of whole.without) {
      const less = judged(
        plant,
        told.filter((answer) => answer.question !== question),
      ).judgement;
      for (const [cause, p] of less.probabilities) expect(before.get(cause)).toBeCloseTo(p, 9);
    }
  });
});

describe('a reading takes the place of a soft answer', () => {
  const rulesWith = (reading: string): RuleSet => ({
    ...ruleSet,
    head: {
      ...ruleSet.head,
      replaces: [{ reading, question: 'complaint', oneOf: ['weak', 'pulsing'] }] as never,
    },
  });
  const replaced = (answers: Answers, reading = 'open') => {
    const { signContext } = judge(factsWith(answers), rulesWith(reading));
    return (cause: string, answer = 'weak', question = 'complaint') =>
      signContext.replaced(cause, question, answer);
  };
  const one = { open: 1 };

  it('for causes whose part lies between the first and the last gauge read', () => {
    const all = replaced([read(one, 2.7, 2.2, 2)]);
    expect([all('sediment-blocked'), all('carbon-blocked'), all('pump-worn')]).toEqual([
      ...[true, true, false],
    ]);
    const first = replaced([read(one, 2.7, 2.2, 'unknown')]);
    expect([first('sediment-blocked'), first('carbon-blocked')]).toEqual([true, false]);
    const last = replaced([read(one, 'unknown', 2.2, 2)]);
    expect([last('sediment-blocked'), last('carbon-blocked')]).toEqual([false, true]);
    const ends = replaced([read(one, 2.7, 'unknown', 2)]);
    expect([ends('sediment-blocked'), ends('carbon-blocked')]).toEqual([true, true]);
    const single = replaced([read(one, 'unknown', 2.2, 'unknown')]);
    expect([single('sediment-blocked'), single('carbon-blocked')]).toEqual([false, false]);
    const none = replaced([read(one, 'unknown', 'unknown', 'unknown')]);
    expect(none('sediment-blocked')).toBe(false);
  });

  it('of the answers that the rules name, and no other', () => {
    const all = replaced([read(one, 2.7, 2.2, 2)]);
    expect(all('sediment-blocked', 'pulsing')).toBe(true);
    expect(all('sediment-blocked', 'smell')).toBe(false);
    expect(all('sediment-blocked', 'weak', 'onset')).toBe(false);
  });

  it('only what water running shows, not what the water is or what changes no pressure', () => {
    const all = replaced([read(one, 2.7, 2.2, 2)]);
    for (const [id, { block, changes, in: place }] of Object.entries(ruleSet.causes)) {
      const between = ['sediment', 'carbon', 'uv', 'gauge'].includes(place);
      expect(all(id), id).toBe(between && block === 'hydraulic' && changes.length > 0);
    }
  });

  it('with taps shut or open as the rules say; a flow speaks of every part', () => {
    const shut = [read('closed', 3, 3, 3)];
    expect(replaced(shut)('sediment-blocked')).toBe(false);
    expect(replaced(shut, 'closed')('sediment-blocked')).toBe(true);
    expect(replaced([read(one, 2.7, 2.2, 2)], 'closed')('sediment-blocked')).toBe(false);
    const flow = { question: 'flow', value: { litres: 10, seconds: 70 } };
    expect(replaced([flow], 'flow')('pump-worn')).toBe(true);
    expect(replaced([flow], 'open')('pump-worn')).toBe(false);
    expect(replaced([], 'flow')('pump-worn')).toBe(false);
  });
});

describe('what the hydraulics took up in words', () => {
  it('is not counted again where a soft answer says the same', () => {
    // an answer of the pump in a group with a complaint, made for this
    const [group] = ruleSet.head.sameSaying;
    if (!group) throw new Error('no group');
    const members = [
      { question: 'pump-open', oneOf: ['silent'] },
      { question: 'complaint', oneOf: ['weak'] },
    ];
    const rules = (repeats: number): RuleSet => ({
      ...ruleSet,
      head: { ...ruleSet.head, sameSaying: [{ ...group, repeats, answers: members }] as never },
    });
    const pump = { question: 'pump-open', value: 'silent' };
    const chance = (repeats: number, answers: Answers) =>
      judge(factsWith(answers), rules(repeats)).probabilities.get('pump-worn') ?? 0;
    // repeating for sure, the complaint says nothing beside the pump
    expect(chance(1, [pump, weak])).not.toBeCloseTo(chance(0, [pump, weak]), 9);
    expect(chance(1, [weak])).toBeCloseTo(chance(0, [weak]), 12);
  });
});

describe('the measured answers', () => {
  const answers: Answers = [
    read({ open: 2 }, 2.5, 2, 1.8),
    read('closed', 3, 3, 3),
    { question: 'flow', value: { litres: 10, seconds: 70 } },
    { question: 'pump-open', value: 'steady' },
    { question: 'pressure-hold-isolated', value: { lostBar: 0, minutes: 10 } },
    { question: 'pressure-hold', value: { lostBar: 0.4, minutes: 10 } },
    smell,
  ];

  it('are told by what they are, in a fixed order', () => {
    const answered = answeredOf(factsWith(answers), ruleSet);
    expect(answered.readings.map(([key]) => key)).toEqual(['closed', 'open 2']);
    expect(answered.running).toMatchObject({ question: 'pump-open', value: 'steady' });
    expect([answered.resting, answered.cycle, answered.housing, answered.tank]).toEqual([
      ...[null, null, null, null],
    ]);
    const holds = answered.holds.map(({ question, isolated }) => [question, isolated]);
    expect(new Map(holds as [string, boolean][])).toEqual(
      new Map([
        ['pressure-hold', false],
        ['pressure-hold-isolated', true],
      ]),
    );
    expect(questionsIn(answered)).toEqual([
      ...['flow', 'pressure-hold', 'pressure-hold-isolated', 'pump-open', 'readings'],
    ]);
  });

  it('a flow speaks of the taps it was measured at, one where nothing is said', () => {
    const keyOf = (more: object) =>
      flowKey(
        answeredOf(
          factsWith([{ question: 'flow', value: { litres: 10, seconds: 70, ...more } }]),
          ruleSet,
        ),
      );
    expect([keyOf({}), keyOf({ taps: { open: 3 } }), keyOf({ taps: 'part-open' })]).toEqual([
      ...['open 1', 'open 3', 'part-open'],
    ]);
    const none = answeredOf(factsWith([smell]), ruleSet);
    expect([flowKey(none), none.readingsQuestion, questionsIn(none)]).toEqual([null, null, []]);
  });
});
