import type { Audience } from '../case/answer.ts';
import type { Pricing } from './cost.ts';
import type { Judgement } from './judge.ts';
import { type Ask, outcomesOf } from './predict.ts';
import { expectedCostOf, type JobTable } from './strategy.ts';
import type { Worlds } from './worlds.ts';

/** What asking is worth, in minutes. */
export interface Worth {
  readonly ask: Ask;
  /** fall of the expected cost of getting the water right, and what being surer is worth by itself */
  readonly savingMinutes: number;
  readonly effortMinutes: number;
  /** expected information about the causes, natural units */
  readonly information: number;
  /** how low the leading cause's probability falls under the worst of the answers that are not far-fetched */
  readonly leadingFallsTo: number;
  /** expected information about which of the two likeliest causes it is, where it is one of them alone, natural units */
  readonly apart: number;
}

/** An answer less likely than this is far-fetched. */
const FAR_FETCHED = 0.05;

/**
 * Expected value of an answer (Howard 1966): expected cost of the best plan now, less that of the best plans after each
 * possible answer, each weighed by its chance.
 */
export function worthOf(
  ask: Ask,
  judgement: Judgement,
  worlds: Worlds,
  table: JobTable,
  pricing: Pricing,
  audience: Audience,
  costNow: number,
): Worth {
  const question = judgement.rules.questions[ask.question];
  const effortMinutes = question?.effortMinutes[audience] ?? 0;
  const outcomes = outcomesOf(ask, judgement, worlds);
  let costAfter = 0;
  let information = 0;
  let total = 0;
  let leadingFallsTo = 1;
  let apart = 0;
  const [first, second] = likeliest(judgement);
  const alone = (one: string, other: string): number[] =>
    worlds.list.flatMap(({ causes }, w) =>
      causes.includes(one) && !causes.includes(other) ? [w] : [],
    );
  const [ofFirst, ofSecond] = [alone(first, second), alone(second, first)];
  const pair = (masses: Float64Array) => [sumAt(ofFirst, masses), sumAt(ofSecond, masses)] as const;
  const [was, wasOther] = pair(Float64Array.from(worlds.list, ({ probability }) => probability));
  const leading = leadingCause(judgement);
  for (const likelihood of outcomes) {
    const posterior = new Float64Array(worlds.list.length);
    let chance = 0;
    worlds.list.forEach((world, w) => {
      posterior[w] = world.probability * (likelihood[w] ?? 0);
      chance += posterior[w] ?? 0;
    });
    if (chance < 1e-4) continue;
    worlds.list.forEach((world, w) => {
      const after = (posterior[w] ?? 0) / chance;
      posterior[w] = after;
      if (after > 1e-9) information += chance * after * Math.log(after / world.probability);
    });
    total += chance;
    const [is, isOther] = pair(posterior);
    apart += chance * (gain(is, isOther, was, wasOther) + gain(isOther, is, wasOther, was));
    if (chance >= FAR_FETCHED) {
      const left = worlds.list.reduce(
        (sum, { causes }, w) => (causes.includes(leading) ? sum + (posterior[w] ?? 0) : sum),
        0,
      );
      leadingFallsTo = Math.min(leadingFallsTo, left);
    }
    costAfter += chance * expectedCostOf(table, posterior, pricing);
  }
  const saved = total > 0 ? total * costNow - costAfter : 0;
  return {
    ask,
    savingMinutes:
      saved / Math.max(1e-9, pricing.perMinute) +
      judgement.rules.head.surenessMinutes * information,
    effortMinutes,
    information,
    leadingFallsTo,
    apart,
  };
}

const sumAt = (at: readonly number[], masses: Float64Array): number =>
  at.reduce((sum, w) => sum + (masses[w] ?? 0), 0);

/** What one of a pair adds to the information about which it is, over both masses before. */
const gain = (is: number, other: number, was: number, wasOther: number): number =>
  is < 1e-9 || was < 1e-9
    ? 0
    : (is / (was + wasOther)) * Math.log(is / (is + other) / (was / (was + wasOther)));

/** The two most probable causes of the tables; empty where there are fewer. */
export function likeliest({ probabilities, rules }: Judgement): readonly [string, string] {
  const [first = '', second = ''] = [...probabilities.keys()]
    .filter((id) => rules.causes[id])
    .sort((a, b) => (probabilities.get(b) ?? 0) - (probabilities.get(a) ?? 0));
  return [first, second];
}

/** The most probable cause of the tables. */
export function leadingCause({ probabilities, rules, suspects }: Judgement): string {
  let best = '';
  for (const [id, probability] of probabilities) {
    const sought = rules.causes[id] && !suspects.overdue.has(id);
    if (sought && probability > (probabilities.get(best) ?? 0)) best = id;
  }
  return best;
}
