import { describe, expect, it } from 'vitest';
import { NOTHING, type Observation, observationsOf } from '../../shared/diagnosis/signs.ts';
import type { RuleSet } from '../../shared/ruleset/schema.ts';
import { at, everyPair, hydraulic, quality } from './made-blocks.ts';
import { ruleSet } from './rules.ts';

/** Answers by tables on random tables, each pair of sets worked out by itself from the definitions. */
const SEED = 20261125;
const frequencies = { 'hardly ever': 0.02, seldom: 0.1, often: 0.45, mostly: 0.8 };
type Word = keyof typeof frequencies;
const words = Object.keys(frequencies) as Word[];
const causes = [...hydraulic.causes, ...quality.causes];
const answers = ['fine', 'mild', 'bad', 'worst'];
const slip = 0.01;

function drawn(seed: number, combine: string) {
  let state = seed;
  const random = () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
  const word = () => words[Math.floor(random() * words.length)] as Word;
  const signs = (chance: number) =>
    Object.fromEntries(answers.flatMap((a) => (random() < chance ? [[a, word()]] : [])));
  const rows = [...causes, NOTHING, 'gone'].filter(() => random() < 0.7);
  // now and then one block says nothing at all
  const isQuiet = random() < 0.3 ? hydraulic.causes : random() < 0.3 ? quality.causes : [];
  const table: Record<string, Record<string, Word>> = Object.fromEntries(
    rows.filter((row) => !isQuiet.includes(row)).map((row) => [row, signs(0.5)]),
  );
  const overdue = new Map(random() < 0.5 ? [['valve', { probability: random() }]] : []);
  const taken = new Set(causes.filter(() => random() < 0.2));
  const replaced = (cause: string, _: string, answer: string) =>
    taken.has(cause) && answer !== 'mild';
  const background = signs(0.3);
  const question = { combine, answers, alone: [], table, background };
  const context = {
    rules: {
      head: { ...ruleSet.head, frequencies },
      questions: { asked: question },
    } as unknown as RuleSet,
    ...{ hydraulic, quality, overdue, replaced },
  };
  const told = (cause: string, answer: string) => {
    const is = (row: string) => frequencies[table[row]?.[answer] ?? ('' as Word)] ?? 0;
    if (!replaced(cause, 'asked', answer)) return is(cause);
    const sought = Object.keys(table).filter((row) => row !== NOTHING);
    return sought.reduce((sum, row) => sum + is(row), 0) / Math.max(1, sought.length);
  };
  const ground = (answer: string) => frequencies[background[answer] ?? ('' as Word)] ?? null;
  const sought = Object.keys(table).filter((row) => row !== NOTHING);
  const unlisted = (of: (cause: string) => number, choices: number) =>
    (0.5 * sought.reduce((sum, cause) => sum + of(cause), 0)) / Math.max(1, sought.length) +
    0.5 / Math.max(2, choices);
  return { context, told, ground, overdue, unlisted, table };
}
type Drawn = ReturnType<typeof drawn>;
const product = (values: readonly number[]) => values.reduce((so, value) => so * value, 1);
const present = ({ h, q }: (typeof everyPair)[number]) => [
  ...h.map((c) => hydraulic.causes[c] ?? ''),
  ...q.map((c) => quality.causes[c] ?? ''),
];
const seeds = Array.from({ length: 40 }, (_, n) => SEED + n);
function same(o: Observation, of: (causes: string[]) => number, n: number) {
  for (const pair of everyPair)
    expect(at(o, pair.i, pair.j), `${n} ${o.answer}`).toBeCloseTo(of(present(pair)), 10);
}

describe(`on random tables (seeds from ${SEED})`, () => {
  const leak = ({ ground, overdue, told }: Drawn, answer: string) =>
    1 -
    (1 - (ground(answer) ?? slip)) *
      product(
        [...overdue].map(([cause, { probability }]) => 1 - probability * told(cause, answer)),
      );

  it('a list: each item shows unless all fail to show it; what was not ticked, none shows', () => {
    for (const n of seeds) {
      const made = drawn(n, 'any');
      const { told, unlisted } = made;
      const [bad, rest] = observationsOf('asked', ['bad'], made.context) as [
        Observation,
        Observation,
      ];
      const silent = (cause: string, of: readonly string[]) =>
        product(of.map((answer) => 1 - told(cause, answer)));
      const background = (of: readonly string[]) =>
        product(of.map((answer) => 1 - leak(made, answer)));
      same(
        bad,
        (here) => 1 - background(['bad']) * product(here.map((c) => silent(c, ['bad']))),
        n,
      );
      expect(bad.nothing).toBeCloseTo(1 - background(['bad']) * silent(NOTHING, ['bad']), 12);
      expect(bad.unlisted).toBeCloseTo(
        unlisted((cause) => told(cause, 'bad'), 4),
        12,
      );
      const others = ['fine', 'mild', 'worst'];
      same(rest, (here) => background(others) * product(here.map((c) => silent(c, others))), n);
      expect(rest.nothing).toBeCloseTo(background(others) * silent(NOTHING, others), 12);
      expect(rest.unlisted).toBeCloseTo(
        background(others) * unlisted((cause) => silent(cause, others), 1),
        12,
      );
      expect([bad.answer, rest.answer]).toEqual(['bad', null]);
    }
  });

  it('the worst that any cause shows: no worse than it, less no worse than what is milder', () => {
    for (const n of seeds) {
      const made = drawn(n, 'worst');
      const { told, ground, overdue, unlisted } = made;
      const all = answers.slice(1);
      answers.forEach((answer, k) => {
        const [o] = observationsOf('asked', answer, made.context) as [Observation];
        // chance that a cause shows nothing beyond the first so many answers; at most 0.98 of it shows at all
        const within = (cause: string, count: number) => {
          const whole = all.reduce((sum, a) => sum + told(cause, a), 0);
          const beyond = all.slice(count).reduce((sum, a) => sum + told(cause, a), 0);
          return 1 - beyond * (whole > 0.98 ? 0.98 / whole : 1);
        };
        const aside = (count: number) =>
          (1 - all.slice(count).reduce((sum, a) => sum + (ground(a) ?? slip), 0)) *
          product(
            [...overdue].map(
              ([cause, { probability }]) => 1 - probability * (1 - within(cause, count)),
            ),
          );
        const upTo = (here: readonly string[], count: number) =>
          count < 0 ? 0 : aside(count) * product(here.map((cause) => within(cause, count)));
        const shown = (here: readonly string[]) =>
          Math.max(slip * slip, upTo(here, k) - upTo(here, k - 1));
        same(o, shown, n);
        expect(o.nothing).toBeCloseTo(shown([NOTHING]), 12);
        const own = (cause: string) => within(cause, k) - (k === 0 ? 0 : within(cause, k - 1));
        expect(o.unlisted).toBeCloseTo(unlisted(own, 4), 12);
      });
    }
  });

  it('one fault that brought it: the mean of the shares of those present', () => {
    for (const n of seeds) {
      const made = drawn(n, 'one of');
      const { told, ground, table } = made;
      for (const answer of answers) {
        const [o] = observationsOf('asked', answer, made.context) as [Observation];
        const share = (of: (a: string) => number) =>
          (of(answer) || 0.02) / answers.reduce((sum, a) => sum + (of(a) || 0.02), 0);
        const aside = share((a) => ground(a) ?? 0);
        same(
          o,
          (here) =>
            here.length === 0
              ? aside
              : here.reduce((sum, cause) => sum + share((a) => told(cause, a)), 0) / here.length,
          n,
        );
        expect(o.nothing).toBeCloseTo(table[NOTHING] ? share((a) => told(NOTHING, a)) : aside, 12);
        expect(o.unlisted).toBe(1 / 4);
      }
    }
  });

  it('what tells one block apart is kept as that block’s own', () => {
    const kept = { h: 0, q: 0, joint: 0 };
    for (const n of seeds)
      for (const combine of ['any', 'worst'])
        for (const o of observationsOf(
          'asked',
          combine === 'any' ? ['bad'] : 'bad',
          drawn(n, combine).context,
        )) {
          if (o.answer === null) continue;
          const [h, q] = [o.h, o.q].map((vector) => vector !== null);
          kept.h += Number(h);
          kept.q += Number(q);
          kept.joint += Number(o.joint !== null);
          expect(Number(h) + Number(q) + Number(o.joint !== null)).toBe(1);
          if (o.joint) {
            // both speak: neither rows nor columns are all alike
            const values = everyPair.map(({ i, j }) => at(o, i, j));
            expect(new Set(values.map((v) => v.toFixed(12))).size).toBeGreaterThan(2);
          }
        }
    for (const count of Object.values(kept)) expect(count).toBeGreaterThan(3);
  });

  it('what is no evidence, or no question, tells nothing', () => {
    const { context } = drawn(SEED, 'none');
    expect(observationsOf('asked', 'bad', context)).toEqual([]);
    expect(observationsOf('gone', 'bad', context)).toEqual([]);
    expect(observationsOf('asked', 'bad', drawn(SEED, 'solved').context)).toEqual([]);
  });
});
