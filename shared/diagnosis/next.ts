import type { Audience } from '../case/answer.ts';
import type { Facts } from '../case/facts.ts';
import { type Taps, tapsKey } from '../case/taps.ts';
import type { Question, RuleSet } from '../ruleset/schema.ts';
import { ONE_TAP } from './answered.ts';
import { isAway } from './away.ts';
import { holds, isGiven } from './condition.ts';
import type { Pricing } from './cost.ts';
import type { Judgement } from './judge.ts';
import type { Ask } from './predict.ts';
import { expectedCostOf, type JobTable } from './strategy.ts';
import type { Worlds } from './worlds.ts';
import { type Worth, worthOf } from './worth.ts';

/** The next thing to ask, or null; and what would still be worth measuring if one could. */
export interface NextAsk {
  readonly ask: Ask | null;
  readonly worth: Worth | null;
  /** best question left out because its effort is more than it saves */
  readonly couldSettle: Worth | null;
  /** best of those left out at telling the two likeliest causes from each other */
  readonly couldPart: Worth | null;
  /** the question whose answer could speak most against the leading cause; null while opening questions are left */
  readonly couldChange: Worth | null;
}

export const NOTHING_TO_ASK: NextAsk = {
  ask: null,
  worth: null,
  couldSettle: null,
  couldPart: null,
  couldChange: null,
};

/** An opening question that tells less than this, in minutes, cannot matter. */
const CANNOT_MATTER_SHARE = 0.5;
/** What tells more than this, in natural units, is worth naming though it is not asked. */
const TELLS = 0.1;

export function nextAsk(
  judgement: Judgement,
  worlds: Worlds,
  table: JobTable,
  pricing: Pricing,
  audience: Audience,
): NextAsk {
  const { facts, rules } = judgement;
  const canAsk = askable(facts, rules, audience);
  const probabilities = Float64Array.from(worlds.list, (world) => world.probability);
  const costNow = expectedCostOf(table, probabilities, pricing);
  const weigh = (ask: Ask) => worthOf(ask, judgement, worlds, table, pricing, audience, costNow);
  const { wholeRound } = rules.head;
  const isRound = wholeRound !== undefined && isGiven(wholeRound, facts, rules);
  for (const id of opening(facts, rules)) {
    const asks = openAsks(id, facts, rules, canAsk);
    const [first] = asks;
    if (!first) continue;
    // Lists that are no evidence (danger, household) are asked for their own sake; an age is worth what it tells.
    const { combine, kind } = rules.questions[id] ?? {};
    if (combine === 'none' && kind === 'list') return { ...NOTHING_TO_ASK, ask: first };
    const matters = asks.map(weigh).filter((worth) => isRound || canMatter(worth));
    // Gauges are read with taps closed first wherever any reading matters: that gives their offsets.
    const worth = first.taps === 'closed' ? matters[0] : matters.find((w) => w.ask === first);
    if (worth) return { ...NOTHING_TO_ASK, ask: first, worth };
  }
  const rest = Object.keys(rules.questions)
    .filter((id) => !rules.head.order.includes(id))
    .concat(Object.keys(rules.questions).filter((id) => rules.questions[id]?.kind === 'readings'))
    .flatMap((id) => [
      ...openAsks(id, facts, rules, canAsk),
      ...moreTaps(id, facts, rules, canAsk),
    ]);
  const weighed = rest.map(weigh).sort((a, b) => net(b) - net(a));
  const best = weighed[0];
  const [couldChange = null] = [...weighed].sort((a, b) => a.leadingFallsTo - b.leadingFallsTo);
  if (best && net(best) > 0) return { ...NOTHING_TO_ASK, ask: best.ask, worth: best, couldChange };
  const bestBy = (what: 'information' | 'apart'): Worth | null =>
    weighed.filter((worth) => worth[what] > TELLS).sort((a, b) => b[what] - a[what])[0] ?? null;
  const [couldSettle, couldPart] = [bestBy('information'), bestBy('apart')];
  return { ...NOTHING_TO_ASK, couldSettle, couldPart, couldChange };
}

/** The set order, and after what was told, what shows it by itself. */
const opening = (facts: Facts, rules: RuleSet): string[] =>
  rules.head.order.flatMap((id) => [
    id,
    ...rules.head.lookFirst
      .filter(({ told }) => told.question === id && isGiven(told, facts, rules))
      .flatMap(({ ask }) => ask),
  ]);

const canMatter = (worth: Worth) => worth.savingMinutes > CANNOT_MATTER_SHARE * worth.effortMinutes;

const net = (worth: Worth) => worth.savingMinutes - worth.effortMinutes;

type Askable = (question: Question) => boolean;

/** Whether a question fits this plant and case, and can be answered where the one asked is. */
function askable(facts: Facts, rules: RuleSet, audience: Audience): Askable {
  const away = isAway(facts, rules, audience);
  return ({ atPlant, when }) =>
    !(away && atPlant) && when.every((condition) => holds(condition, facts, rules));
}

/** A question in its opening form, unless answered. */
function openAsks(id: string, facts: Facts, rules: RuleSet, canAsk: Askable): Ask[] {
  const question = rules.questions[id];
  if (!question || !canAsk(question)) return [];
  const again =
    question.againIfUnknown && facts.timesUnknown.get(id) === 1 && facts.unknown.has(id);
  if (facts.asked.has(id) && !again) return [];
  if (question.kind !== 'readings') return [{ question: id, taps: null }];
  const states: Taps[] = ['closed', ONE_TAP as Taps];
  return states
    .filter((taps) => !facts.asked.has(`${id} ${tapsKey(taps)}`))
    .map((taps) => ({ question: id, taps }));
}

/** After one tap: as many as the house must feed at once. */
function moreTaps(id: string, facts: Facts, rules: RuleSet, canAsk: Askable): Ask[] {
  const question = rules.questions[id];
  if (question?.kind !== 'readings' || facts.asked.has(id) || !canAsk(question)) return [];
  const house = facts.plant.line.find((part) => part.kind === 'house');
  const open = Math.max(2, house?.need?.open ?? 2);
  const taps: Taps = { open };
  return facts.asked.has(`${id} ${tapsKey(taps)}`) ? [] : [{ question: id, taps }];
}
