import type { Audience } from '../../shared/case/answer.ts';
import { cheapestOrder } from './cheapest.ts';
import { questionMinutes } from './costs.ts';
import { expectedCost } from './cure.ts';
import { type Interview, judgedBy } from './interview.ts';
import { thumb } from './thumb.ts';
import { usualParts } from './usual-parts.ts';
import type { World } from './world.ts';

/** Where the true faults stand in one ranking. */
export interface Ranked {
  readonly first: boolean;
  readonly three: boolean;
  /** both of two in the first three; null with fewer */
  readonly both: boolean | null;
  readonly named: string;
}

/** Everything the report needs of one played world. */
export interface Score {
  readonly index: number;
  readonly gauges: number;
  readonly sought: readonly string[];
  readonly questions: number;
  readonly asked: readonly string[];
  readonly tool: Ranked;
  readonly own: Ranked;
  readonly thumb: Ranked | null;
  /** every cause's probability, and whether it was so */
  readonly claims: readonly (readonly [cause: string, probability: number, true_: boolean])[];
  readonly times: readonly number[];
  /** minutes' worth to the cure; null where nothing was wrong */
  readonly cost: {
    readonly asking: number;
    readonly plan: number;
    readonly usual: number;
    readonly thumb: number | null;
    /** the exact cheapest order on the same answers; null where it was too large */
    readonly cheapest: number | null;
    /** cost if the fault were known */
    readonly known: number;
  } | null;
}

export function scoreOf(world: World, interview: Interview, audience: Audience): Score {
  const { faults, tables, random } = world;
  const sought = faults.sought.map(({ cause }) => cause);
  const overdue = faults.overdue.map(({ cause }) => cause);
  const own = judgedBy(tables, world, interview.answers);
  const byThumb = thumb(world, random);
  const cost = (steps: Parameters<typeof expectedCost>[1]) =>
    expectedCost(tables, steps, faults.sought, audience);
  const cheapest = sought.length === 1 ? cheapestOrder(world, own, audience) : null;
  const known = sought.flatMap(
    (cause) => cheapestOrder(world, new Map([[cause, 1]]), audience) ?? [],
  );
  const asking = interview.asked.reduce((sum, q) => sum + questionMinutes(q, audience), 0);
  const truth = new Set([...sought, ...overdue]);
  return {
    index: world.index,
    gauges: world.gauges,
    sought,
    questions: interview.asked.length,
    asked: interview.asked,
    tool: rankedOf(interview.probabilities, sought, overdue),
    own: rankedOf(own, sought, overdue),
    thumb: byThumb && rankedOf(new Map([[byThumb.cause, 1]]), sought, overdue),
    claims: [...interview.probabilities].map(([cause, p]) => [
      cause,
      p,
      cause === 'nothing-wrong' ? sought.length === 0 : truth.has(cause),
    ]),
    times: interview.times,
    cost:
      sought.length === 0
        ? null
        : {
            asking,
            plan: cost(interview.plan),
            usual: cost(usualParts(world)),
            thumb: byThumb && cost(byThumb.steps),
            cheapest: cheapest && cost(cheapest),
            known: cost(known),
          },
  };
}

/** What is truly past its life is told by upkeep and takes no place, so it is passed over in the ranking. */
function rankedOf(
  probabilities: ReadonlyMap<string, number>,
  sought: readonly string[],
  overdue: readonly string[],
): Ranked {
  const ranking = [...probabilities]
    .filter(([cause]) => !overdue.includes(cause))
    .sort((a, b) => b[1] - a[1])
    .map(([cause]) => cause);
  const right = sought.length > 0 ? sought : ['nothing-wrong'];
  const top = ranking.slice(0, 3);
  return {
    named: ranking[0] ?? 'none',
    first: right.includes(ranking[0] ?? ''),
    three: top.some((cause) => right.includes(cause)),
    both: sought.length === 2 ? sought.every((cause) => top.includes(cause)) : null,
  };
}
