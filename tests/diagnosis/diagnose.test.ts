import { describe, expect, it } from 'vitest';
import type { Audience } from '../../shared/case/answer.ts';
import { diagnose } from '../../shared/diagnosis/diagnose.ts';
import { fernhollow } from '../../shared/plant/fernhollow.ts';
import type { RuleSet } from '../../shared/ruleset/schema.ts';
import { latestRuleSet } from '../../src/rules/read.ts';
import { twoGauges } from '../two-gauges.ts';
import { type Answers, judged } from './judged.ts';
import { DAY, ruleSet } from './rules.ts';

/** How a judged case is handed over: causes in order, the next question in words. */
const en = latestRuleSet().words.en;
if (!en) throw new Error('the rule set has no English words');
const say = (pattern: string, n: number) =>
  pattern.replace('{n}', `${n}`).replace('{minutes}', `${n}`);
const result = (
  answers: Answers,
  more: { audience?: Audience; today?: string; plant?: object } = {},
  rules: RuleSet = ruleSet,
) => diagnose({ plant: twoGauges, answers, ...more }, rules, en, DAY);
const openedBy = (...order: string[]): RuleSet => ({
  ...ruleSet,
  head: { ...ruleSet.head, order },
});
/** The same for a question that takes no time to answer; being surer is worth so many minutes. */
function freely(id: string, surenessMinutes = ruleSet.head.surenessMinutes): RuleSet {
  const question = ruleSet.questions[id];
  if (!question) throw new Error(`no question ${id}`);
  const effortMinutes = { householder: 0, agent: 0, technician: 0 };
  const questions = { ...ruleSet.questions, [id]: { ...question, effortMinutes } };
  return { ...ruleSet, head: { ...ruleSet.head, order: [id], surenessMinutes }, questions };
}

describe('the causes', () => {
  const answers: Answers = [{ question: 'complaint', value: ['weak'] }];
  const { causes, ruleSet: version, today } = result(answers);
  const { judgement } = judged(twoGauges, answers);

  it('are all of them, likeliest first, alike ones by their ids, to six figures', () => {
    expect(causes).toHaveLength(judgement.probabilities.size);
    causes.forEach(({ id, probability }, i) => {
      expect(probability).toBe(Number((judgement.probabilities.get(id) ?? 9).toPrecision(6)));
      const next = causes[i + 1];
      if (!next) return;
      const [a, b] = [id, next.id].map((one) => judgement.probabilities.get(one) ?? 0);
      expect((a ?? 0) > (b ?? 0) || (a === b && id < next.id)).toBe(true);
    });
    expect([version, today]).toEqual([ruleSet.head.version, DAY]);
    expect(result(answers, { today: '2027-02-03' }).today).toBe('2027-02-03');
  });

  it('of the tables have their places; what is overdue says so', () => {
    for (const { id, parts, overdue } of causes) {
      expect(parts === undefined, id).toBe(ruleSet.causes[id] === undefined);
      expect(overdue).toBeUndefined();
    }
    const line = twoGauges.line.toSpliced(6, 0, {
      ...{ id: 'uv', kind: 'uv', lampFittedOn: '2023-01-01' },
    } as never);
    const old = result(answers, { plant: { ...twoGauges, line } });
    const due = old.causes.filter(({ overdue }) => overdue);
    expect(due.map(({ parts }) => parts)).toEqual([[{ id: 'uv', probability: 1 }]]);
  });
});

describe('the next question', () => {
  const nextOf = (...given: Parameters<typeof result>) => result(...given).next;

  it.each<Audience>(['householder', 'agent', 'technician'])(
    'is put in the words of the %s, with its answers to choose from',
    (audience) => {
      const question = ruleSet.head.order[0] ?? '';
      const next = nextOf([], { audience });
      expect(next).toMatchObject({ question, ask: null, why: en.questions[question]?.why });
      expect(next?.text).toBe(en.questions[question]?.ask[audience]);
      expect(next?.choices).toEqual(
        ruleSet.questions[question]?.answers.map((id) => ({
          ...{ id, label: en.questions[question]?.answers[id]?.label },
        })),
      );
    },
  );

  it('that nobody knew is put in other words', () => {
    const [question = '', table] =
      Object.entries(ruleSet.questions).find(([, { againIfUnknown }]) => againIfUnknown) ?? [];
    const rules = openedBy(question);
    expect(table?.againIfUnknown).toBe(true);
    const next = nextOf([{ question, value: 'unknown' }], {}, rules);
    expect(next?.text).toBe(en.questions[question]?.again);
    expect(nextOf([], {}, rules)?.text).toBe(en.questions[question]?.ask.householder);
  });

  it('tells the minutes that its answer saves, from five on', () => {
    const weak: Answers = [{ question: 'complaint', value: ['weak'] }];
    const next = nextOf(weak, {}, openedBy('readings'));
    const minutes = /(\d+)/.exec(next?.why.replace(en.questions.readings?.why ?? '', '') ?? '');
    const told = Number(minutes?.[1]);
    expect(told).toBeGreaterThanOrEqual(5);
    expect(next?.why).toBe(
      `${en.questions.readings?.why} ${say(en.phrases['worth-minutes'] ?? '', told)}`,
    );
    const little = nextOf(weak, {}, freely('tank-level', 1));
    expect(little?.question).toBe('tank-level');
    expect(little?.why).toBe(en.questions['tank-level']?.why);
  });

  it('for gauges says which taps and which gauges', () => {
    const weak: Answers = [{ question: 'complaint', value: ['weak'] }];
    const closed = nextOf(weak, {}, openedBy('readings'));
    expect(closed).toMatchObject({
      ...{ question: 'readings', ask: { taps: 'closed', gauges: ['G1', 'G2'] }, choices: null },
      text: en.phrases['ask-readings-closed'],
    });
    const read = {
      ...{ question: 'readings', value: { taps: 'closed', bar: { G1: 3, G2: 3 } } },
    };
    const open = nextOf([...weak, read], {}, openedBy('readings'));
    expect(open).toMatchObject({
      ask: { taps: { open: 1 }, gauges: ['G1', 'G2'] },
      text: en.phrases['ask-readings-one'],
    });
  });

  it('a level may be chosen in words; a measurement has nothing to choose', () => {
    const weak: Answers = [{ question: 'complaint', value: ['weak'] }];
    const level = nextOf(weak, {}, freely('tank-level'));
    expect(level?.choices?.map(({ id }) => id)).toEqual(ruleSet.questions['tank-level']?.answers);
    const flow = nextOf(weak, {}, freely('flow'));
    expect(flow).toMatchObject({ question: 'flow', choices: null, ask: null });
  });

  it('is none while danger stops it all; nor is there a plan or a remark', () => {
    const stopped = result([{ question: 'danger', value: ['shock'] }]);
    expect(stopped).toMatchObject({ next: null, plan: [], remarks: [] });
    expect(stopped.dispatch.decision).toBe('stop');
  });
});

it('a planned job names first the part that its cause most likely sits in, wherever that stands in the line', () => {
  const read = (taps: unknown, G1: number, G2: number, G3: number, G4: number) => ({
    question: 'readings',
    value: { taps, bar: { G1, G2, G3, G4 } },
  });
  const { causes, plan } = result(
    [read('closed', 3.4, 3.4, 3.4, 3.4), read({ open: 1 }, 3.2, 3.1, 3.1, 0.7)],
    { plant: fernhollow },
  );
  const places = causes.find(({ id }) => id === 'valve-part-closed')?.parts ?? [];
  expect(places.map(({ id }) => id)).toEqual(['v2', 'v1']);
  expect(plan.find(({ job }) => job === 'open-valves')?.parts).toEqual(['v2', 'v1']);
});
