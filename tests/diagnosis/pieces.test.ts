import { describe, expect, it } from 'vitest';
import type { Facts } from '../../shared/case/facts.ts';
import { ageOf } from '../../shared/diagnosis/ages.ts';
import { seenAnswers } from '../../shared/diagnosis/bands.ts';
import { minutesOf, pricingOf } from '../../shared/diagnosis/cost.ts';
import {
  type GaugeError,
  levelReadings,
  median,
  offsetsOf,
} from '../../shared/diagnosis/gauge-errors.ts';
import { below, density, evenDensity } from '../../shared/diagnosis/normal.ts';
import { type PosteriorInput, posteriorOf } from '../../shared/diagnosis/posterior.ts';
import { repeatChances, soften } from '../../shared/diagnosis/same-saying.ts';
import { blockOf, setIndex } from '../../shared/diagnosis/sets.ts';
import { severitiesOf } from '../../shared/diagnosis/severity.ts';
import {
  type Observation,
  observationsOf,
  type SignContext,
} from '../../shared/diagnosis/signs.ts';
import type { Suspect } from '../../shared/diagnosis/suspects.ts';
import type { Part } from '../../shared/plant/schema.ts';
import type { Cause, Job, Question, RuleSet } from '../../shared/ruleset/schema.ts';
import { ruleSet } from './rules.ts';

describe('the normal distribution', () => {
  // Any printed table of the standard normal, to five places.
  it.each([
    [-3, 0.00135],
    [-1.645, 0.04998],
    [-1, 0.15866],
    [0, 0.5],
    [0.5, 0.69146],
    [1, 0.84134],
    [1.96, 0.975],
    [3, 0.99865],
    [9, 1],
    [-9, 0],
  ])('below %d lies %d', (z, share) => {
    expect(below(z)).toBeCloseTo(share, 5);
  });

  it('has its table’s heights, stretched by the standard deviation', () => {
    expect(density(0, 0, 1)).toBeCloseTo(0.39894, 5);
    expect(density(7, 5, 2)).toBeCloseTo(0.24197 / 2, 5);
  });

  it('of an even spread is flat inside, half at its ends, and sums to one', () => {
    expect(evenDensity(3, 1, 5, 0.1)).toBeCloseTo(1 / 4, 6);
    expect(evenDensity(1, 1, 5, 0.1)).toBeCloseTo(1 / 8, 6);
    expect(evenDensity(5, 1, 5, 0.1)).toBeCloseTo(1 / 8, 6);
    let sum = 0;
    for (let x = -3; x < 9; x += 0.01) sum += 0.01 * evenDensity(x, 1, 5, 0.7);
    expect(sum).toBeCloseTo(1, 4);
    expect(evenDensity(2.2, 2, 2, 0.4)).toBeCloseTo(density(2.2, 2, 0.4), 12);
  });
});

describe('sets of at most two causes', () => {
  it('stand where their index says, in whichever order they are named', () => {
    const block = blockOf(['a', 'b', 'c', 'd', 'e']);
    expect(block.sets).toHaveLength(1 + 5 + 10);
    expect(block.sets[0]).toEqual([]);
    for (const [i, set] of block.sets.entries()) {
      const [a, b] = set;
      if (a === undefined) continue;
      expect(setIndex(block, a, b)).toBe(i);
      if (b !== undefined) expect(setIndex(block, b, a)).toBe(i);
    }
  });
});

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

describe('severities', () => {
  const of = (changes: object[], scale: 'log' | 'linear' = 'log', most = 20) =>
    severitiesOf({ table: { changes, scale } } as unknown as Suspect, most);

  it('of a cause that changes nothing are one that changes nothing', () => {
    expect(of([])).toEqual([{ weight: 1, spread: 0, change: {} }]);
  });

  it('share their chance out evenly, ways by their shares, and sum to one', () => {
    const all = of([
      { share: 3, a: [1, 16] },
      { share: 1, b: 0.5 },
    ]);
    expect(all.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 12);
    expect(all.filter(({ change }) => 'b' in change)).toMatchObject([
      { weight: 0.25, change: { b: 0.5 }, spread: 0.1 },
    ]);
    // a range of 16 in steps of 2 needs four
    expect(all.filter(({ change }) => 'a' in change)).toHaveLength(4);
  });

  it('lie in the middle of equal steps: equal factors on a logarithmic scale, equal differences on a linear one', () => {
    const values = (severities: ReturnType<typeof of>) =>
      severities.map(({ change }) => (change as Record<string, number>).a ?? 0);
    const [low = 0, ...more] = values(of([{ share: 1, a: [1, 16] }]));
    expect(low).toBeCloseTo(Math.SQRT2, 12);
    expect(more.map((value) => value / low)).toEqual([2, 4, 8].map((v) => expect.closeTo(v, 9)));
    const linear = values(of([{ share: 1, a: [1, 16] }], 'linear'));
    expect(linear).toEqual([2.875, 6.625, 10.375, 14.125].map((v) => expect.closeTo(v, 9)));
    // a range through zero has no factor
    expect(values(of([{ share: 1, a: [-1, 1] }]))).toEqual([-0.75, -0.25, 0.25, 0.75]);
  });

  it('are no more than wanted, each spread the wider', () => {
    const few = of([{ share: 1, a: [1, 16] }], 'log', 2);
    expect(few).toHaveLength(2);
    expect(few[0]?.spread).toBeCloseTo(0.6, 12);
    expect(of([{ share: 1, a: [1, 16] }])[0]?.spread).toBeCloseTo(0.3, 12);
    expect(of([{ share: 1, a: [1, 1.2] }])).toHaveLength(3);
  });
});

describe('what a job costs', () => {
  const rules = {
    head: {
      visitMinutes: { technician: 90, plumber: 120, electrician: 150 },
      minutesPerMoney: 0.5,
    },
  } as unknown as RuleSet;
  const job = (by: string, perPart = false) => ({ by, minutes: 30, money: 20, perPart }) as Job;
  const none = new Set<never>();

  it('in minutes: its own, its parts in minutes, and having somebody come who is not there', () => {
    const { of, perMinute, there } = pricingOf(rules, 'householder', undefined);
    expect(of(job('householder'), 1, none)).toBe(40);
    expect(of(job('technician'), 1, none)).toBe(130);
    expect(of(job('technician'), 1, new Set(['technician'] as const))).toBe(40);
    expect(perMinute).toBe(1);
    expect([...there]).toEqual(['householder']);
  });

  it('in money where the case gives its own figures', () => {
    const { of, perMinute, there } = pricingOf(rules, 'technician', {
      perHour: 60,
      callOut: 80,
    } as never);
    expect(of(job('plumber'), 1, there)).toBe(130);
    expect(of(job('technician'), 1, there)).toBe(50);
    expect(perMinute).toBe(1);
    expect(pricingOf(rules, 'agent', { perHour: 30, callOut: 0 } as never).perMinute).toBe(0.5);
  });

  it('a second part of the same job takes half as long again and its own material', () => {
    expect(minutesOf(job('householder', true), 3)).toBe(60);
    expect(minutesOf(job('householder', true), 0)).toBe(30);
    expect(minutesOf(job('householder'), 3)).toBe(30);
    const { of } = pricingOf(rules, 'householder', undefined);
    expect(of(job('householder', true), 2, none)).toBe(45 + 20);
    expect(of(job('householder'), 2, none)).toBe(40);
  });
});

describe('ages', () => {
  const facts = (given: object = {}) =>
    ({ today: '2026-11-25', values: new Map(), work: [], ...given }) as unknown as Facts;
  const rules = {
    questions: { changed: { kind: 'dates' }, burnt: { kind: 'hours' } },
    jobs: { 'change-it': { renews: true }, 'look-at-it': {} },
  } as unknown as RuleSet;
  const filter = (more = {}) => ({ id: 'f', kind: 'filter', medium: 'carbon', ...more }) as Part;
  const lamp = (more = {}) => ({ id: 'uv', kind: 'uv', lampLifeH: 8766, ...more }) as Part;
  const year = { lifeMonths: 12 } as Cause;
  const age = (part: Part, given = {}) => ageOf(year, part, facts(given), rules);

  it('are shares of the life that the part’s own label gives, else the rule set', () => {
    expect(age(filter({ fittedOn: '2025-11-25' }))?.share).toBeCloseTo(365 / 365.25, 9);
    expect(age(filter({ fittedOn: '2025-11-25', lifeMonths: 6 }))?.share).toBeCloseTo(
      730 / 365.25,
      9,
    );
    expect(age(lamp({ lampFittedOn: '2025-11-25', lampLifeH: 17_532 }))?.share).toBeCloseTo(
      0.4997,
      4,
    );
    expect(ageOf({} as Cause, filter({ fittedOn: '2025-11-25' }), facts(), rules)).toBeNull();
    expect(age(filter())).toBeNull();
    expect(age(filter({ fittedOn: '2027-01-01' }))).toEqual({ share: 0, source: 'date' });
  });

  it('count from the latest day it was new: plant, answer by part or medium, finished work', () => {
    const share = (given: object) =>
      ((age(filter({ fittedOn: '2024-11-25' }), given)?.share ?? 0) * 365.25).toFixed(3);
    const dates = (by: object) => ({ values: new Map([['changed', by]]) });
    expect(share({})).toBe('730.000');
    expect(share(dates({ f: '2026-11-15' }))).toBe('10.000');
    expect(share(dates({ carbon: '2026-11-05' }))).toBe('20.000');
    expect(share(dates({ sediment: '2026-11-05' }))).toBe('730.000');
    const work = (job: string, part: string) => ({
      work: [{ job, parts: [part], day: '2026-11-24' }],
    });
    expect(share(work('change-it', 'f'))).toBe('1.000');
    expect(share(work('look-at-it', 'f'))).toBe('730.000');
    expect(share(work('change-it', 'other'))).toBe('730.000');
  });

  it('of a lamp go by its counter, unless it was changed since', () => {
    const counted = { values: new Map([['burnt', 4383]]) };
    expect(age(lamp(), counted)).toEqual({ share: expect.closeTo(0.5, 9), source: 'counter' });
    const work = [{ job: 'change-it', parts: ['uv'], day: '2026-11-25' }];
    expect(age(lamp(), { ...counted, work })).toEqual({ share: 0, source: 'date' });
  });
});

describe('gauges compared with taps shut', () => {
  const gauge = (id: string, heightM = 0): GaugeError => ({
    ...{ id, at: 0, rangeBar: 6, heightM, permittedBar: 0.15 },
    ...{ offsetBar: 0.06, gain: 0.01, readingBar: 0.03 },
  });
  const gauges = [gauge('a'), gauge('b', 2), gauge('c')];
  const facts = (bar: object) => ({ offsets: { taps: 'closed', bar } }) as unknown as Facts;
  const offset = (bar: object, suspected?: string) =>
    [...(offsetsOf(facts(bar), gauges, 0, suspected)?.byGauge ?? [])].map(([id, { offsetBar }]) => [
      id,
      Number(offsetBar.toFixed(6)),
    ]);

  it('the middle of an odd count, the mean of the middle two of an even one', () => {
    expect(median([3, 1, 2])).toBe(2);
    expect(median([4, 1, 3, 2])).toBe(2.5);
    expect(median([])).toBe(0);
  });

  it('differ by their offsets, each told at the same height', () => {
    expect(offset({ a: 3.1, c: 2.9 })).toEqual([
      ['a', 0.1],
      ['c', -0.1],
    ]);
    // two metres of water are 0.196 bar
    expect(offset({ a: 3, b: 3 - 0.1958 })).toEqual([
      ['a', 0],
      ['b', 0],
    ]);
  });

  it('one far off is a slip and gives no offset, unless it is suspected: then it moves no mean', () => {
    expect(offset({ a: 3, b: 3 - 0.1958, c: 3.31 })).toEqual([
      ['a', 0],
      ['b', 0],
    ]);
    expect(offset({ a: 3, b: 3 - 0.1958, c: 4 }, 'c')).toEqual([
      ['a', 0],
      ['b', 0],
      ['c', 1],
    ]);
    expect(offset({ a: 3 })).toEqual([]);
    expect(offsetsOf({ offsets: null } as unknown as Facts, gauges, 0)).toBeNull();
  });

  it('know what they share to the root of their number', () => {
    expect(offsetsOf(facts({ a: 3, c: 3 }), gauges, 0)?.commonBar).toBeCloseTo(
      0.06 / Math.SQRT2,
      12,
    );
  });

  it('read with their offset taken out; without it, with its uncertainty left in', () => {
    const open = { taps: { open: 1 }, bar: { a: 2, c: 1 } } as never;
    const known = levelReadings(open, gauges, offsetsOf(facts({ a: 3.1, c: 2.9 }), gauges, 0), 0);
    expect(known.map(({ bar }) => bar)).toEqual([1.9, 1.1].map((v) => expect.closeTo(v, 9)));
    expect(known[0]?.ownBar).toBeCloseTo(Math.hypot(0.03 * Math.SQRT2, 0.01 * 1.1), 12);
    const bare = levelReadings(open, gauges, null, 0);
    expect(bare.map(({ bar }) => bar)).toEqual([2, 1]);
    expect(bare[0]?.ownBar).toBeCloseTo(Math.hypot(0.03, 0.02, 0.06), 12);
  });
});

/** Two blocks, tables by word; the words are the figures themselves. */
const hydraulic = blockOf(['pump', 'filter', 'valve']);
const quality = blockOf(['iron', 'smell']);
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
/** Value of an observation at a pair of sets. */
const at = (o: Observation, i: number, j: number) =>
  o.joint
    ? (o.joint[i * quality.sets.length + j] ?? Number.NaN)
    : (o.h?.[i] ?? 1) * (o.q?.[j] ?? 1);
const everyPair = hydraulic.sets.flatMap((h, i) => quality.sets.map((q, j) => ({ h, q, i, j })));

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

describe('the posterior', () => {
  const vector = (length: number, seed: number) =>
    Float64Array.from({ length }, (_, i) => 0.05 + ((i * 7919 + seed * 104_729) % 97) / 100);
  const [rows, columns] = [hydraulic.sets.length, quality.sets.length];
  const told = (question: string, seed: number, of: 'h' | 'q' | 'joint'): Observation => ({
    ...{ question, answer: 'yes', h: null, q: null, joint: null, nothing: 0.3, unlisted: 0.2 },
    [of]: vector({ h: rows, q: columns, joint: rows * columns }[of], seed),
  });
  const observations = [
    told('one', 1, 'h'),
    told('two', 2, 'q'),
    told('three', 3, 'joint'),
    told('three', 4, 'joint'),
    told('four', 5, 'joint'),
  ];
  const input: PosteriorInput = {
    rules: {
      head: { ...ruleSet.head, sameSaying: [], asking: { nothingWrong: 0.5, notListed: 0.1 } },
    } as unknown as RuleSet,
    hydraulic,
    quality,
    hydraulicPrior: vector(rows, 6),
    qualityPrior: vector(columns, 7),
    evidence: { weight: vector(rows, 8), unlisted: 0.4 },
    evidenceWithout: new Map([['solved', { weight: vector(rows, 9), unlisted: 0.6 }]]),
    observations,
    solved: new Map(),
  };
  /** The definition itself: weight of every pair, and of the two ends. */
  const byHand = ({
    observations: all,
    evidence,
    hydraulicPrior,
    qualityPrior,
  }: PosteriorInput) => {
    const singles =
      [1, 2, 3].reduce((sum, i) => sum + hydraulicPrior[i]!, 0) +
      qualityPrior[1]! +
      qualityPrior[2]!;
    const product = (of: (o: Observation) => number) => all.reduce((p, o) => p * of(o), 1);
    const nothing = 0.5 * singles * evidence.weight[0]! * product((o) => o.nothing);
    const unlisted = 0.1 * singles * evidence.unlisted * product((o) => o.unlisted);
    const weights = everyPair.map(({ i, j }) =>
      i + j === 0 ? nothing : evidence.weight[i]! * qualityPrior[j]! * product((o) => at(o, i, j)),
    );
    const total = weights.reduce((a, b) => a + b, unlisted);
    return {
      joint: weights.map((w) => w / total),
      nothing: nothing / total,
      unlisted: unlisted / total,
    };
  };
  const close = (values: readonly number[]) => values.map((value) => expect.closeTo(value, 10));

  it('is prior odds times likelihoods over every pair of sets, normalised', () => {
    const ours = posteriorOf(input);
    const expected = byHand(input);
    expect([...ours.joint]).toEqual(close(expected.joint));
    expect([ours.nothingWrong, ours.notListed]).toEqual(
      close([expected.nothing, expected.unlisted]),
    );
    const row = hydraulic.sets.map((_, i) =>
      everyPair.reduce((sum, pair, k) => (pair.i === i ? sum + expected.joint[k]! : sum), 0),
    );
    const column = quality.sets.map((_, j) =>
      everyPair.reduce((sum, pair, k) => (pair.j === j ? sum + expected.joint[k]! : sum), 0),
    );
    expect([...ours.row]).toEqual(close(row));
    expect([...ours.column]).toEqual(close(column));
  });

  it.each(['one', 'two', 'three', 'four', 'solved'])(
    'without answer "%s" is that of the case without it',
    (question) => {
      const less = posteriorOf({
        ...input,
        observations: observations.filter((o) => o.question !== question),
        evidence: input.evidenceWithout.get(question) ?? input.evidence,
      });
      const without = posteriorOf(input).without.get(question);
      expect([...(without?.row ?? [])]).toEqual(close([...less.row]));
      expect([...(without?.column ?? [])]).toEqual(close([...less.column]));
      expect(without?.notListed).toBeCloseTo(less.notListed, 10);
    },
  );
});

describe('the same thing said twice', () => {
  const said = (question: string, ...h: number[]): Observation => ({
    ...{ question, answer: 'yes', q: null, joint: null, nothing: 0.5, unlisted: 0.4 },
    h: Float64Array.from(h),
  });
  const group = (full?: string) =>
    ({
      head: {
        sameSaying: [
          {
            repeats: 0.7,
            ...(full && { full }),
            answers: ['a', 'b', 'c'].map((question) => ({ question, oneOf: ['yes'] })),
          },
        ],
      },
    }) as unknown as RuleSet;
  const [weak, strong, other] = [said('a', 0.4, 0.5), said('b', 0.1, 0.9), said('x', 0.1, 0.9)];
  const none = new Map<string, string[]>();

  it('counts in full by its strongest answer, or by the one that tells it most exactly', () => {
    expect(repeatChances([weak, strong, other], none, group())).toEqual([0.7, 0, 0]);
    expect(repeatChances([strong, weak], none, group())).toEqual([0, 0.7]);
    expect(repeatChances([weak, strong], none, group('a'))).toEqual([0, 0.7]);
  });

  it('counts in full when said once, and not at all anew where the hydraulics took it up', () => {
    expect(repeatChances([weak, other], none, group())).toEqual([0, 0]);
    expect(repeatChances([weak, other], new Map([['c', ['yes']]]), group())).toEqual([0.7, 0]);
    expect(repeatChances([weak, other], new Map([['c', ['no']]]), group())).toEqual([0, 0]);
  });

  it('softened says nothing with the chance that it repeats', () => {
    expect(soften(weak, 0)).toBe(weak);
    const half = soften(weak, 0.5);
    expect([...(half.h ?? [])]).toEqual([0.7, 0.75]);
    expect([half.nothing, half.unlisted, half.q]).toEqual([0.75, 0.7, null]);
    expect([...(soften(weak, 1).h ?? [])]).toEqual([1, 1]);
  });
});
