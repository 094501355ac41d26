import type { Audience } from '../../shared/case/answer.ts';
import type { Actor } from '../../shared/diagnosis/result.ts';
import type { RuleSet } from '../../shared/ruleset/schema.ts';
import { JOB_COSTS, MINUTES_PER_MONEY, OTHER_JOB, SEARCH_MINUTES, VISIT_MINUTES } from './costs.ts';
import type { Fault } from './draw-faults.ts';

/** One job of an order of jobs; `parts` empty or left out: every part it can be done to. */
export interface Step {
  readonly job: string;
  readonly parts?: readonly string[];
}

/** The job that stands for "somebody comes and searches": whatever its place in an order, it is the end of it. */
export const LAST_RESORT = 'call-technician';

/** Chance that a job ends a fault, by the generator's own table. */
export function cureChance(tables: RuleSet, { job, parts }: Step, fault: Fault): number {
  const table = tables.jobs[job];
  const word = table?.cures[fault.cause];
  if (!table || !word) return 0;
  if (table.perPart && parts && parts.length > 0 && !parts.includes(fault.part)) return 0;
  return tables.head.frequencies[word];
}

/** Minutes' worth of a step, the visit left out. A job done to several parts is paid for each. */
export function stepCost({ job, parts }: Step): number {
  const { minutes, money } = JOB_COSTS[job] ?? OTHER_JOB;
  return (minutes + money * MINUTES_PER_MONEY) * Math.max(1, parts?.length ?? 1);
}

export const actorOf = ({ job }: Step): Actor => (JOB_COSTS[job] ?? OTHER_JOB).by;

/** Who is there already: a technician who asks the questions need not be sent for. */
export const presentAtFirst = (audience: Audience): Set<Actor> =>
  new Set(audience === 'technician' ? ['householder', 'technician'] : ['householder']);

/**
 * Expected minutes' worth until every fault is cured when the steps are done in this order, each only while something
 * is still wrong; at the end a technician searches until it is found. Exact over the chances of cure, nothing drawn.
 */
export function expectedCost(
  tables: RuleSet,
  steps: readonly Step[],
  faults: readonly Fault[],
  audience: Audience,
): number {
  const present = presentAtFirst(audience);
  const alive = faults.map(() => 1);
  const uncured = () => 1 - alive.reduce((product, a) => product * (1 - a), 1);
  let cost = 0;
  for (const step of steps) {
    if (step.job === LAST_RESORT) break;
    const still = uncured();
    cost += still * (stepCost(step) + visit(present, actorOf(step)));
    faults.forEach((fault, i) => {
      alive[i] = (alive[i] ?? 1) * (1 - cureChance(tables, step, fault));
    });
  }
  return cost + uncured() * (visit(present, 'technician') + SEARCH_MINUTES);
}

function visit(present: Set<Actor>, actor: Actor): number {
  if (present.has(actor)) return 0;
  present.add(actor);
  return VISIT_MINUTES[actor];
}
