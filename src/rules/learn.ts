import type { Answer } from '../../shared/case/answer.ts';
import { tellsOfWork } from '../../shared/case/work-done.ts';
import { seenAnswers } from '../../shared/diagnosis/bands.ts';
import type { Case } from '../../shared/diagnosis/diagnose.ts';
import { awaitsProof } from '../../shared/interview/proof.ts';
import { type FrequencyWord, frequencyWords, type RuleSet } from '../../shared/ruleset/schema.ts';
import { proveWork } from '../../shared/work/proving.ts';
import type { ReadRuleSet } from './read.ts';
import type { NamedCase } from './replay.ts';
import { judged } from './run-examples.ts';

/** A closed case whose proving run confirmed what was wrong, with what was answered before the work. */
export interface Proven {
  readonly name: string;
  readonly cause: string;
  readonly answers: readonly Answer[];
}

/** Of the proven cases of a cause in which a question was answered, in how many an answer was given. */
export interface Count {
  readonly question: string;
  readonly cause: string;
  readonly answer: string;
  readonly seen: number;
  readonly of: number;
  /** 95 % interval of the share (Wilson 1927) */
  readonly low: number;
  readonly high: number;
  /** the word in the table, null where the row does not name the answer */
  readonly word: FrequencyWord | null;
  /** the word that fits the counts, where there are enough and the word in the table lies outside the interval */
  readonly proposed: FrequencyWord | null;
}

/** Fewer cases than these say nothing about a word. */
export const ENOUGH = 10;

/** The cause that a case proved, or null: work that ended what it was meant to, shown by measuring with water running. */
export function provenIn({ name, input }: NamedCase, rules: ReadRuleSet): Proven | null {
  const { ruleSet } = rules;
  const work = input.answers.findLastIndex(tellsOfWork);
  if (work < 0 || awaitsProof(input.answers, ruleSet)) return null;
  const done = input.answers[work]?.value as { job?: string; parts?: readonly string[] } | null;
  const before: Case = { ...input, answers: input.answers.slice(0, work) };
  const was = judged(before, rules);
  const cures = ruleSet.jobs[done?.job ?? '']?.cures ?? {};
  const cause = was.causes.find(({ id }) => id in cures && id in ruleSet.causes)?.id;
  if (cause === undefined) return null;
  const block = ruleSet.causes[cause]?.block;
  const proof = proveWork(was, judged(input, rules), cause, done?.parts?.[0] ?? null, (id) => {
    return ruleSet.causes[id]?.block === block;
  });
  return proof.outcome === 'cured' ? { name, cause, answers: before.answers } : null;
}

/** Counts what was seen under each proven cause, for every question that is evidence by a table. */
export function countsOf(proven: readonly Proven[], rules: RuleSet): Count[] {
  const tallies = new Map<string, { seen: number; of: number }>();
  const key = (...ids: readonly string[]) => ids.join(' ');
  const tally = (question: string, cause: string, answer: string, wasSeen: boolean) => {
    const known = tallies.get(key(question, cause, answer)) ?? { seen: 0, of: 0 };
    known.of += 1;
    known.seen += Number(wasSeen);
    tallies.set(key(question, cause, answer), known);
  };
  for (const { cause, answers } of proven) {
    const last = new Map(answers.map(({ question, value }) => [question, value]));
    for (const [id, value] of last) {
      const question = rules.questions[id];
      if (!question || value === 'unknown' || value === null) continue;
      if (!['any', 'worst', 'one of'].includes(question.combine)) continue;
      const { seen, notSeen } = seenAnswers(question, value);
      const others = question.kind === 'water-test' ? notSeen : question.answers;
      for (const answer of new Set([...seen, ...others]))
        tally(id, cause, answer, seen.includes(answer));
    }
  }
  return [...tallies].map(([ids, { seen, of }]) => {
    const [question = '', cause = '', answer = ''] = ids.split(' ');
    const table = rules.questions[question];
    const word = table?.table[cause]?.[answer] ?? null;
    // in a question with one answer, the first is what a row leaves over: it has no word of its own
    const isRest = table?.combine === 'worst' && table.answers[0] === answer;
    const [low, high] = wilson(seen, of);
    const fits = isRest || of < ENOUGH ? null : wordFor(seen / of, low, high, word, rules);
    return { question, cause, answer, seen, of, low, high, word, proposed: fits };
  });
}

/** The word nearest in odds to the share, unless the present one lies inside the interval. */
function wordFor(
  share: number,
  low: number,
  high: number,
  word: FrequencyWord | null,
  { head: { frequencies } }: RuleSet,
): FrequencyWord | null {
  const present = word ?? 'hardly ever';
  if (frequencies[present] >= low && frequencies[present] <= high) return null;
  const odds = (p: number) => Math.log(Math.max(p, 0.005) / Math.max(1 - p, 0.005));
  const distance = (each: FrequencyWord) => Math.abs(odds(frequencies[each]) - odds(share));
  const nearest = [...frequencyWords].sort((a, b) => distance(a) - distance(b))[0];
  return nearest === undefined || nearest === present ? null : nearest;
}

/** 95 % score interval of a share (E. B. Wilson, J. Am. Stat. Assoc. 22, 209, 1927). */
export function wilson(seen: number, of: number): [number, number] {
  const z = 1.959964;
  const p = seen / of;
  const middle = (p + z ** 2 / (2 * of)) / (1 + z ** 2 / of);
  const half = (z / (1 + z ** 2 / of)) * Math.sqrt((p * (1 - p)) / of + z ** 2 / (4 * of ** 2));
  return [Math.max(0, middle - half), Math.min(1, middle + half)];
}

/** What the counts propose, in words. Nothing is changed: a person writes it into a draft, or does not. */
export function learnText(cases: number, proven: readonly Proven[], rules: RuleSet): string {
  const counts = countsOf(proven, rules);
  const proposals = counts.filter(({ proposed }) => proposed !== null);
  const byCause = new Map<string, number>();
  for (const { cause } of proven) byCause.set(cause, (byCause.get(cause) ?? 0) + 1);
  const { frequencies } = rules.head;
  const figure = (word: FrequencyWord | null) =>
    word === null ? 'no word' : `${word} (${frequencies[word]})`;
  return [
    `${cases} cases, ${proven.length} of them closed with a proving run that confirmed the cause:`,
    ...[...byCause].sort((a, b) => b[1] - a[1]).map(([cause, n]) => `  ${cause}: ${n}`),
    '',
    proposals.length === 0
      ? `No word to propose: none is both counted in ${ENOUGH} cases and outside its interval.`
      : 'Words to think about (95 % interval; nothing was changed):',
    ...proposals.map(
      ({ question, cause, answer, word, proposed, seen, of, low, high }) =>
        `  questions › ${question} › table › ${cause} › ${answer}: ${figure(word)} → ${figure(proposed)}; seen in ${seen} of ${of}, ${low.toFixed(2)} to ${high.toFixed(2)}`,
    ),
  ].join('\n');
}
