import type { Audience } from '../../shared/case/answer.ts';
import { partsInPlace } from '../../shared/case/places.ts';
import type { RuleSet } from '../../shared/ruleset/schema.ts';
import { SEARCH_MINUTES, VISIT_MINUTES } from './costs.ts';
import { actorOf, cureChance, LAST_RESORT, presentAtFirst, type Step, stepCost } from './cure.ts';
import type { Fault } from './draw-faults.ts';
import type { World } from './world.ts';

/** So many jobs are small enough to try every order of them (2^n sets of jobs done). */
const MOST_JOBS = 11;

/**
 * Strategy (a): the order of jobs with the least expected cost, exactly, for one fault whose chances are given: dynamic
 * programming over the sets of jobs done. Null where more than one cause in a hundred lies outside what is small enough.
 */
export function cheapestOrder(
  world: World,
  probabilities: ReadonlyMap<string, number>,
  audience: Audience,
): Step[] | null {
  const { tables, told } = world;
  const weights = [...probabilities]
    .filter(([cause, p]) => tables.causes[cause] && !tables.causes[cause]?.pastLife && p > 0.004)
    .flatMap(([cause, p]): [Fault, number][] => {
      const parts = partsInPlace(tables.causes[cause]?.in ?? 'plant', told);
      return parts.map((part) => [{ cause, part }, p / parts.length]);
    });
  const steps = stepsFor(
    tables,
    weights.map(([fault]) => fault),
  );
  const useful = steps
    .map((step) => ({
      step,
      worth:
        weights.reduce((sum, [f, p]) => sum + p * cureChance(tables, step, f), 0) / stepCost(step),
    }))
    .filter(({ worth }) => worth > 0)
    .sort((a, b) => b.worth - a.worth);
  if (useful.length === 0 || useful.length > MOST_JOBS) return null;
  return orderFor(
    tables,
    useful.map(({ step }) => step),
    weights,
    audience,
  );
}

/** Each job that cures any of them, for each part apart where it is done part by part. */
function stepsFor(tables: RuleSet, faults: readonly Fault[]): Step[] {
  const steps = new Map<string, Step>();
  for (const [job, table] of Object.entries(tables.jobs)) {
    if (job === LAST_RESORT) continue;
    for (const fault of faults) {
      if (!table.cures[fault.cause]) continue;
      if (table.perPart) steps.set(`${job} ${fault.part}`, { job, parts: [fault.part] });
      else steps.set(job, { job });
    }
  }
  return [...steps.values()];
}

/** The cheapest order of these steps, exactly; steps that do not pay are left out of it. */
export function orderFor(
  tables: RuleSet,
  steps: readonly Step[],
  weights: readonly (readonly [Fault, number])[],
  audience: Audience,
): Step[] {
  const all = 1 << steps.length;
  const alive = new Float64Array(all);
  const kept = steps.map((step) => weights.map(([fault]) => 1 - cureChance(tables, step, fault)));
  for (let done = 0; done < all; done++) {
    alive[done] = weights.reduce((sum, [, p], f) => {
      let still = p;
      for (let j = 0; j < steps.length; j++) if (done & (1 << j)) still *= kept[j]?.[f] ?? 1;
      return sum + still;
    }, 0);
  }
  const present = presentAtFirst(audience);
  const visit = (done: number, actor: ReturnType<typeof actorOf>) =>
    present.has(actor) || steps.some((s, j) => done & (1 << j) && actorOf(s) === actor)
      ? 0
      : VISIT_MINUTES[actor];
  const value = new Float64Array(all);
  const next = new Int8Array(all).fill(-1);
  for (let done = all - 1; done >= 0; done--) {
    const still = alive[done] ?? 0;
    value[done] = still * (SEARCH_MINUTES + visit(done, 'technician'));
    for (let j = 0; j < steps.length; j++) {
      const step = steps[j];
      if (!step || done & (1 << j)) continue;
      const cost =
        still * (stepCost(step) + visit(done, actorOf(step))) + (value[done | (1 << j)] ?? 0);
      if (cost < (value[done] ?? 0)) {
        value[done] = cost;
        next[done] = j;
      }
    }
  }
  const order: Step[] = [];
  for (let done = 0, j = next[0] ?? -1; j >= 0; j = next[done] ?? -1) {
    const step = steps[j];
    if (step) order.push(step);
    done |= 1 << j;
  }
  return order;
}
