import { describe, expect, it } from 'vitest';
import { seenAnswers } from '../../shared/diagnosis/bands.ts';
import { setIndex } from '../../shared/diagnosis/sets.ts';
import {
  type Observation,
  observationsOf,
  type SignContext,
} from '../../shared/diagnosis/signs.ts';
import type { Question, RuleSet } from '../../shared/ruleset/schema.ts';
import { at, everyPair, hydraulic, quality } from './made-blocks.ts';
import { ruleSet } from './rules.ts';

describe('what an answer comes to', () => {
  const question = (given: object) => ({ alone: [], ...given }) as unknown as Question;
  const list = question({ answers: ['weak', 'noise', 'smell', 'routine'], alone: ['routine'] });
  const banded = question({
    answers: ['low', 'fair', 'high', 'never'],
    bands: {
      value: [
        { answer: 'low', below: 2 },
        { answer: 'fair', atLeast: 2, below: 5 },
        { answer: 'high', atLeast: 5 },
      ],
    },
  });
  it.each<[string, Question, unknown, string[], string[]]>([
    ['a choice', list, 'weak', ['weak'], []],
    ['one of a list', list, ['weak'], ['weak'], ['noise', 'smell', 'routine']],
    ['two of a list', list, ['weak', 'smell'], ['weak', 'smell'], ['noise']],
    ['what counts only alone, alone', list, ['routine'], ['routine'], ['weak', 'noise', 'smell']],
    [
      'what counts only alone, with others',
      list,
      ['routine', 'weak'],
      ['weak'],
      ['noise', 'smell'],
    ],
    ['nothing of a list', list, [], [], ['weak', 'noise', 'smell', 'routine']],
    ['a number under the first bound', banded, 1.99, ['low'], ['fair', 'high']],
    ['a number on a bound', banded, 2, ['fair'], ['low', 'high']],
    ['a number between', banded, 4.99, ['fair'], ['low', 'high']],
    ['a number on the last bound', banded, 5, ['high'], ['low', 'fair']],
    ['a number as a field', banded, { value: 7, other: 1 }, ['high'], ['low', 'fair']],
    ['a field that was not read', banded, { other: 1 }, [], []],
    ['a word beside numbers', banded, 'never', ['never'], []],
    ['a word that is no answer', banded, 'often', [], []],
    ['a number without bands', list, 3, [], []],
  ])('%s', (_, asked, value, seen, notSeen) => {
    expect(seenAnswers(asked, value)).toEqual({ seen, notSeen });
  });
});

/** Tables by word; the words are the figures themselves. */
const frequencies = { 'hardly ever': 0.02, seldom: 0.1, often: 0.5, mostly: 0.8 };
const contextOf = (question: object, overdue: SignContext['overdue'] = new Map()): SignContext => ({
  rules: {
    head: { ...ruleSet.head, frequencies },
    questions: { asked: { alone: [], background: {}, ...question } },
  } as unknown as RuleSet,
  hydraulic,
  quality,
  overdue,
  replaced: () => false,
});
const table = {
  pump: { mild: 'often', bad: 'seldom' },
  filter: { bad: 'mostly' },
  iron: { mild: 'seldom', bad: 'often' },
};
const answers = ['fine', 'mild', 'bad'];

describe('chances of an answer', () => {
  const overdue = new Map([['valve', { probability: 0.3 }]]);
  it.each(['worst', 'one of'])(
    'of a question that takes the %s sum to one, whatever is wrong',
    (combine) => {
      const context = contextOf(
        { combine, answers, table, background: { mild: 'seldom' } },
        overdue,
      );
      const all = answers.flatMap((answer) => observationsOf('asked', answer, context));
      expect(all).toHaveLength(3);
      for (const { i, j } of everyPair)
        expect(all.reduce((sum, o) => sum + at(o, i, j), 0)).toBeCloseTo(1, 3);
      expect(all.reduce((sum, o) => sum + o.nothing, 0)).toBeCloseTo(1, 3);
    },
  );

  it('of the worst that shows: no worse than each cause by itself shows (noisy-max)', () => {
    const context = contextOf({ combine: 'worst', answers, table, background: {} });
    const [fine] = observationsOf('asked', 'fine', context) as [Observation];
    const [bad] = observationsOf('asked', 'bad', context) as [Observation];
    const pumpAndIron = [setIndex(hydraulic, 0), setIndex(quality, 0)] as const;
    // people slip once in a hundred for each answer
    expect(at(fine, ...pumpAndIron)).toBeCloseTo(0.98 * (1 - 0.6) * (1 - 0.6), 9);
    expect(at(bad, ...pumpAndIron)).toBeCloseTo(1 - 0.99 * 0.9 * 0.5, 9);
  });

  it('of a list item: shown unless the background and every cause fail to show it (noisy-or)', () => {
    const question = {
      combine: 'any',
      answers: ['mild', 'bad'],
      table,
      background: { bad: 'seldom' },
    };
    const [seen, not] = observationsOf('asked', ['bad'], contextOf(question, overdue)) as [
      Observation,
      Observation,
    ];
    const silent = { pump: 0.9, filter: 0.2, valve: 1 } as Record<string, number>;
    for (const { h, q, i, j } of everyPair) {
      const miss = [...h.map((c) => silent[hydraulic.causes[c] ?? ''] ?? 1)].reduce(
        (a, b) => a * b,
        1,
      );
      const missQ = q.includes(0) ? 0.5 : 1;
      expect(at(seen, i, j)).toBeCloseTo(1 - 0.9 * miss * missQ, 12);
      const quiet = (h.includes(0) ? 0.5 : 1) * (q.includes(0) ? 0.9 : 1);
      expect(at(not, i, j)).toBeCloseTo(0.99 * quiet, 12);
    }
    expect(seen.nothing).toBeCloseTo(0.1, 12);
    expect(not).toMatchObject({ answer: null, nothing: expect.closeTo(0.99, 12) });
    // something nobody thought of: half as the listed causes on average, half just anyhow
    expect(seen.unlisted).toBeCloseTo(0.5 * ((0.1 + 0.8 + 0.5) / 3) + 0.25, 12);
  });

  it('of what is merely overdue speak from the background', () => {
    const question = { combine: 'any', answers: ['bad'], table, background: {} };
    const old = new Map([['filter', { probability: 0.5 }]]);
    const [seen] = observationsOf('asked', ['bad'], contextOf(question, old)) as [Observation];
    expect(at(seen, 0, 0)).toBeCloseTo(1 - 0.99 * (1 - 0.5 * 0.8), 12);
  });

  it('of one fault that brought it: the mean over the causes that are there', () => {
    const context = contextOf({
      combine: 'one of',
      answers,
      table,
      background: { fine: 'mostly' },
    });
    const [bad] = observationsOf('asked', 'bad', context) as [Observation];
    const share = (own: number, ...others: number[]) => own / (own + others[0]! + others[1]!);
    const pump = share(0.1, 0.02, 0.5);
    const filter = share(0.8, 0.02, 0.02);
    const iron = share(0.5, 0.02, 0.1);
    expect(at(bad, 0, 0)).toBeCloseTo(share(0.02, 0.8, 0.02), 12);
    expect(at(bad, setIndex(hydraulic, 0), 0)).toBeCloseTo(pump, 12);
    expect(at(bad, setIndex(hydraulic, 0, 1), 0)).toBeCloseTo((pump + filter) / 2, 12);
    expect(at(bad, setIndex(hydraulic, 0, 1), setIndex(quality, 0))).toBeCloseTo(
      (pump + filter + iron) / 3,
      12,
    );
    expect(bad.unlisted).toBeCloseTo(1 / 3, 12);
  });

  it('of a cause that readings measured already are those of the table’s mean', () => {
    const context = {
      ...contextOf({ combine: 'any', answers: ['bad'], table, background: {} }),
      replaced: (cause: string) => cause === 'filter',
    };
    const [seen] = observationsOf('asked', ['bad'], context) as [Observation];
    const mean = (0.1 + 0.8 + 0.5) / 3;
    expect(at(seen, setIndex(hydraulic, 1), 0)).toBeCloseTo(1 - 0.99 * (1 - mean), 12);
  });
});
