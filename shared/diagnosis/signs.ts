import type { Question, RuleSet, Signs } from '../ruleset/schema.ts';
import { seenAnswers } from './bands.ts';
import type { Block } from './sets.ts';

/**
 * One thing observed and how likely it is under each pair of cause sets (hydraulic set h, quality set q).
 * A factor that depends on one block only is kept as a vector; `joint` (row h, column q) where both speak.
 */
export interface Observation {
  readonly question: string;
  /** the answer seen, or null for everything on a list that was not ticked */
  readonly answer: string | null;
  readonly h: Float64Array | null;
  readonly q: Float64Array | null;
  readonly joint: Float64Array | null;
  /** likelihood where nothing at all is wrong */
  readonly nothing: number;
  /** likelihood under something this rule set does not hold */
  readonly unlisted: number;
}

export interface SignContext {
  readonly rules: RuleSet;
  readonly hydraulic: Block;
  readonly quality: Block;
  /** merely overdue causes and the chance of each: they speak from the background */
  readonly overdue: ReadonlyMap<string, { readonly probability: number }>;
  /** true where readings already measured this cause, so that the soft answer no longer tells causes apart */
  readonly replaced: (cause: string, question: string, answer: string) => boolean;
}

/** Every observation that one answered question makes; empty for questions that are no evidence by tables. */
export function observationsOf(id: string, value: unknown, context: SignContext): Observation[] {
  const question = context.rules.questions[id];
  if (!question) return [];
  const { seen, notSeen } = seenAnswers(question, value);
  switch (question.combine) {
    case 'any':
      return [
        ...seen.map((answer) => listed(id, answer, question, context)),
        ...(notSeen.length > 0 ? [notListed(id, notSeen, question, context)] : []),
      ];
    case 'worst':
      return seen.map((answer) => worst(id, answer, question, context));
    case 'one of':
      return seen.map((answer) => oneOf(id, answer, question, context));
    default:
      return [];
  }
}

/** The row a table may keep for a plant with nothing wrong (contract id). */
export const NOTHING = 'nothing-wrong';
/** Something this rule set does not hold (contract id). */
export const NOT_LISTED = 'not-listed';

type Frequency = (cause: string, answer: string) => number;

/** How often a cause shows an answer. Causes already measured all show it alike: the mean of the table. */
function frequencyOf(id: string, question: Question, context: SignContext): Frequency {
  const { frequencies } = context.rules.head;
  const read = (signs: Signs | undefined, answer: string) => {
    const word = signs?.[answer];
    return word ? frequencies[word] : 0;
  };
  return (cause, answer) => {
    if (!context.replaced(cause, id, answer)) return read(question.table[cause], answer);
    const rows = Object.entries(question.table).flatMap(([row, signs]) =>
      row === NOTHING ? [] : [signs],
    );
    return rows.reduce((sum, signs) => sum + read(signs, answer), 0) / Math.max(1, rows.length);
  };
}

/** Chance of seeing the answer without any cause sought: the background and what is merely overdue. */
function leak(
  answer: string,
  frequency: Frequency,
  question: Question,
  context: SignContext,
): number {
  const word = question.background[answer];
  let missed = 1 - (word ? context.rules.head.frequencies[word] : SLIP);
  for (const [cause, { probability }] of context.overdue)
    missed *= 1 - probability * frequency(cause, answer);
  return 1 - missed;
}

/** People slip: no answer is ever impossible. */
const SLIP = 0.01;

/** Product over a set's causes, for every set of a block. */
function productOver(block: Block, factor: (cause: string) => number): Float64Array {
  const single = block.causes.map(factor);
  const product = new Float64Array(block.sets.length).fill(1);
  for (let i = 0; i < product.length; i++)
    for (const c of block.sets[i] ?? []) product[i] = (product[i] ?? 1) * (single[c] ?? 1);
  return product;
}

const speaks = (vector: Float64Array) => vector.some((x) => x !== vector[0]);

/** Builds an observation from its value at each pair, keeping to one block where the other says nothing. */
function combine(
  question: string,
  answer: string | null,
  h: Float64Array,
  q: Float64Array,
  at: (h: number, q: number) => number,
  nothing: number,
  unlisted: number,
): Observation {
  const none = { question, answer, h: null, q: null, joint: null, nothing, unlisted };
  if (!speaks(q)) return { ...none, h: h.map((value) => at(value, q[0] ?? 1)) };
  if (!speaks(h)) return { ...none, q: q.map((value) => at(h[0] ?? 1, value)) };
  const joint = new Float64Array(h.length * q.length);
  for (let i = 0; i < h.length; i++) {
    for (let j = 0; j < q.length; j++) joint[i * q.length + j] = at(h[i] ?? 1, q[j] ?? 1);
  }
  return { ...none, joint };
}

/** Something nobody thought of shows an answer as the listed causes do on average, or just anyhow. */
function unlistedChance(
  question: Question,
  perCause: (cause: string) => number,
  choices: number,
): number {
  const causes = Object.keys(question.table).filter((cause) => cause !== NOTHING);
  const mean = causes.reduce((sum, cause) => sum + perCause(cause), 0) / Math.max(1, causes.length);
  return 0.5 * mean + 0.5 / Math.max(2, choices);
}

/** Noisy-or (Pearl 1988; Shwe et al. 1991): an item shows unless the background and every cause fail to show it. */
function listed(id: string, answer: string, question: Question, context: SignContext): Observation {
  const frequency = frequencyOf(id, question, context);
  const silent = (cause: string) => 1 - frequency(cause, answer);
  const background = 1 - leak(answer, frequency, question, context);
  const h = productOver(context.hydraulic, silent);
  const q = productOver(context.quality, silent);
  const unlisted = unlistedChance(
    question,
    (cause) => frequency(cause, answer),
    question.answers.length,
  );
  const at = (a: number, b: number) => 1 - background * a * b;
  return combine(id, answer, h, q, at, at(silent(NOTHING), 1), unlisted);
}

function notListed(
  id: string,
  answers: readonly string[],
  question: Question,
  context: SignContext,
): Observation {
  const frequency = frequencyOf(id, question, context);
  const silent = (cause: string) =>
    answers.reduce((product, answer) => product * (1 - frequency(cause, answer)), 1);
  const background = answers.reduce(
    (product, answer) => product * (1 - leak(answer, frequency, question, context)),
    1,
  );
  const h = productOver(context.hydraulic, silent);
  const q = productOver(context.quality, silent);
  const mean = unlistedChance(question, silent, 1);
  return {
    question: id,
    answer: null,
    h: h.map((value) => value * background),
    q,
    joint: null,
    nothing: background * silent(NOTHING),
    unlisted: mean * background,
  };
}

/** Noisy-max: the answer given is the worst that any cause shows. Answers stand mildest first. */
function worst(id: string, answer: string, question: Question, context: SignContext): Observation {
  const frequency = frequencyOf(id, question, context);
  const at = question.answers.indexOf(answer);
  const milder = question.answers.slice(1, at);
  const upTo = question.answers.slice(1, at + 1);
  const all = question.answers.slice(1);
  // Chance that a cause shows nothing worse than the last of `answers`.
  const noWorse = (cause: string, answers: readonly string[]) => {
    const total = all.reduce((sum, a) => sum + frequency(cause, a), 0);
    const scale = total > 0.98 ? 0.98 / total : 1;
    const shown = answers.reduce((sum, a) => sum + frequency(cause, a), 0);
    return 1 - scale * (total - shown);
  };
  const words = question.background;
  const { frequencies } = context.rules.head;
  const ground = (answers: readonly string[]) => {
    const beyond = all.filter((a) => !answers.includes(a));
    let chance = 1 - beyond.reduce((sum, a) => sum + (words[a] ? frequencies[words[a]] : SLIP), 0);
    for (const [cause, { probability }] of context.overdue) {
      chance *= 1 - probability * (1 - noWorse(cause, answers));
    }
    return chance;
  };
  const isFirst = at === 0;
  const top = ground(upTo);
  const below = isFirst ? 0 : ground(milder);
  const hTop = productOver(context.hydraulic, (cause) => noWorse(cause, upTo));
  const qTop = productOver(context.quality, (cause) => noWorse(cause, upTo));
  const hLow = productOver(context.hydraulic, (cause) => noWorse(cause, milder));
  const qLow = productOver(context.quality, (cause) => noWorse(cause, milder));
  const perCause = (cause: string) => noWorse(cause, upTo) - (isFirst ? 0 : noWorse(cause, milder));
  return pairwise(
    id,
    answer,
    [hTop, hLow],
    [qTop, qLow],
    { top, low: below },
    { top: noWorse(NOTHING, upTo), low: noWorse(NOTHING, milder) },
    unlistedChance(question, perCause, question.answers.length),
  );
}

/** As `combine`, for values that need two numbers of each block: what is no worse than `top`, less what is milder. */
function pairwise(
  question: string,
  answer: string,
  [hTop, hLow]: readonly [Float64Array, Float64Array],
  [qTop, qLow]: readonly [Float64Array, Float64Array],
  ground: { readonly top: number; readonly low: number },
  nothing: { readonly top: number; readonly low: number },
  unlisted: number,
): Observation {
  const value = (top: number, low: number) =>
    Math.max(SLIP * SLIP, ground.top * top - ground.low * low);
  const at = (i: number, j: number) =>
    value((hTop[i] ?? 1) * (qTop[j] ?? 1), (hLow[i] ?? 1) * (qLow[j] ?? 1));
  const none = {
    question,
    answer,
    h: null,
    q: null,
    joint: null,
    nothing: value(nothing.top, nothing.low),
    unlisted,
  };
  if (!speaks(qTop) && !speaks(qLow)) return { ...none, h: hTop.map((_, i) => at(i, 0)) };
  if (!speaks(hTop) && !speaks(hLow)) return { ...none, q: qTop.map((_, j) => at(0, j)) };
  const joint = new Float64Array(hTop.length * qTop.length);
  for (let i = 0; i < hTop.length; i++)
    for (let j = 0; j < qTop.length; j++) joint[i * qTop.length + j] = at(i, j);
  return { ...none, joint };
}

/** One fault brought the complaint: the mean over the causes present, each as likely to be the one. */
function oneOf(id: string, answer: string, question: Question, context: SignContext): Observation {
  const frequency = frequencyOf(id, question, context);
  const seldomest = context.rules.head.frequencies['hardly ever'];
  const share = (read: (a: string) => number) => {
    const of = (a: string) => read(a) || seldomest;
    return of(answer) / question.answers.reduce((sum, a) => sum + of(a), 0);
  };
  const words = question.background;
  const ground = share((a) => (words[a] ? context.rules.head.frequencies[words[a]] : 0));
  const nothing = question.table[NOTHING] ? share((a) => frequency(NOTHING, a)) : ground;
  const perCause = (cause: string) => share((a) => frequency(cause, a));
  const { hydraulic, quality } = context;
  const sums = ({ causes, sets }: Block) => {
    const single = causes.map(perCause);
    return Float64Array.from(sets, (set) => set.reduce((sum, c) => sum + (single[c] ?? 0), 0));
  };
  const h = sums(hydraulic);
  const q = sums(quality);
  const joint = new Float64Array(h.length * q.length);
  for (let i = 0; i < h.length; i++) {
    const among = hydraulic.sets[i]?.length ?? 0;
    for (let j = 0; j < q.length; j++) {
      const n = among + (quality.sets[j]?.length ?? 0);
      joint[i * q.length + j] = n === 0 ? ground : ((h[i] ?? 0) + (q[j] ?? 0)) / n;
    }
  }
  return {
    question: id,
    answer,
    h: null,
    q: null,
    joint,
    nothing,
    unlisted: 1 / question.answers.length,
  };
}
