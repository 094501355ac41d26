import { describe, expect, it } from 'vitest';
import { type PosteriorInput, posteriorOf } from '../../shared/diagnosis/posterior.ts';
import { repeatChances, soften } from '../../shared/diagnosis/same-saying.ts';
import { blockOf, setIndex } from '../../shared/diagnosis/sets.ts';
import type { Observation } from '../../shared/diagnosis/signs.ts';
import type { RuleSet } from '../../shared/ruleset/schema.ts';
import { at, everyPair, hydraulic, quality } from './made-blocks.ts';
import { ruleSet } from './rules.ts';

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

  it('strength is how far it moves the odds between any two sets, in either block and both', () => {
    const of = (vectors: Partial<Observation>): Observation => ({ ...weak, h: null, ...vectors });
    const v = (...values: number[]) => Float64Array.from(values);
    // factors of 2 in one block and of 3 in the other come before one of 5, and after one of 7
    const both = of({ h: v(0.2, 0.4), q: v(0.1, 0.3) });
    const five = of({ question: 'b', joint: v(0.1, 0.3, 0.5) });
    const seven = of({ question: 'b', q: v(0.7, 0.1) });
    expect(repeatChances([both, five], none, group())).toEqual([0, 0.7]);
    expect(repeatChances([five, both], none, group())).toEqual([0.7, 0]);
    expect(repeatChances([both, seven], none, group())).toEqual([0.7, 0]);
    expect(repeatChances([seven, both], none, group())).toEqual([0, 0.7]);
    // alike: the first counts
    const alike = of({ question: 'c', h: v(0.4, 0.2), q: v(0.1, 0.3) });
    expect(repeatChances([both, alike], none, group())).toEqual([0, 0.7]);
    expect(repeatChances([alike, both], none, group())).toEqual([0, 0.7]);
  });

  it('of three all but the strongest repeat it; in two groups the likelier repetition counts', () => {
    const third = said('c', 0.3, 0.5);
    expect(repeatChances([weak, third, strong], none, group())).toEqual([0.7, 0.7, 0]);
    const groups = (...repeats: number[]) =>
      ({
        head: {
          sameSaying: repeats.map((chance) => ({ ...group().head.sameSaying[0], repeats: chance })),
        },
      }) as unknown as RuleSet;
    expect(repeatChances([weak, strong], none, groups(0.3, 0.6))).toEqual([0.6, 0]);
    expect(repeatChances([weak, strong], none, groups(0.6, 0.3))).toEqual([0.6, 0]);
  });

  it('what was not ticked on a list, and an answer the group does not name, repeat nothing', () => {
    expect(repeatChances([{ ...weak, answer: null }, strong], none, group())).toEqual([0, 0]);
    expect(repeatChances([{ ...weak, answer: 'no' }, strong], none, group())).toEqual([0, 0]);
  });

  it('softened says nothing with the chance that it repeats', () => {
    expect(soften(weak, 0)).toBe(weak);
    const half = soften(weak, 0.5);
    expect([...(half.h ?? [])]).toEqual([0.7, 0.75]);
    expect([half.nothing, half.unlisted, half.q]).toEqual([0.75, 0.7, null]);
    expect([...(soften(weak, 1).h ?? [])]).toEqual([1, 1]);
    const joint = { ...weak, h: null, q: Float64Array.of(0.2), joint: Float64Array.of(0, 0.6) };
    const softer = soften(joint, 0.5);
    expect([softer.h, ...(softer.q ?? []), ...(softer.joint ?? [])]).toEqual([null, 0.6, 0.5, 0.8]);
  });
});
