import type { Job } from '../ruleset/schema.ts';
import type { Pricing } from './cost.ts';
import type { Actor } from './result.ts';
import { NOT_LISTED } from './signs.ts';

/** A job as the strategy weighs it: which causes it ends and how surely (the right places covered). */
export interface Option {
  readonly id: string;
  readonly job: Job;
  readonly parts: readonly string[];
  readonly cures: ReadonlyMap<string, number>;
}

export interface Step {
  readonly option: Option;
  /** cause it is done for */
  readonly cause: string;
  /** chance that it ends the trouble, given all before did not */
  readonly cures: number;
  readonly cost: number;
  /** from here to the cure */
  readonly expectedCost: number;
}

export interface Strategy {
  readonly steps: readonly Step[];
  readonly expectedCost: number;
}

/** The causes of each world against the jobs, laid out once so that many probabilities can be weighed quickly. */
export interface JobTable {
  readonly options: readonly Option[];
  /** one entry per world and cause in it */
  readonly entries: readonly {
    readonly world: number;
    readonly cause: string;
  }[];
  /** per option, the entries it can end and how surely */
  readonly ends: readonly (readonly { readonly entry: number; readonly cure: number }[])[];
  readonly firstEntry: readonly number[];
  readonly last: Option | null;
  /** per entry, what mending it costs once the last resort stands there and knows what it is */
  readonly mending: readonly number[];
}

const ENOUGH = 0.02;
const MOST_STEPS = 8;
/** A step that ends the trouble in fewer than one case of twenty is not worth the telling, and can be worth the harm. */
const LEAST_GAIN = 0.05;

export function jobTable(
  worlds: readonly { readonly causes: readonly string[] }[],
  options: readonly Option[],
  pricing: Pricing,
): JobTable {
  const firstEntry: number[] = [];
  const entries = worlds.flatMap(({ causes }, world) => {
    firstEntry.push(
      (firstEntry.at(-1) ?? 0) + (world === 0 ? 0 : (worlds[world - 1]?.causes.length ?? 0)),
    );
    return causes.map((cause) => ({ world, cause }));
  });
  firstEntry.push(entries.length);
  const trials = options.filter((option) => !option.job.lastResort);
  const last = options.find((option) => option.job.lastResort) ?? null;
  return {
    options: trials,
    entries,
    firstEntry,
    ends: trials.map((option) =>
      entries.flatMap(({ cause, world }, entry) => {
        const cure = option.cures.get(cause);
        return cure && mayBeDone(option, worlds[world]?.causes ?? []) ? [{ entry, cure }] : [];
      }),
    ),
    last,
    mending: entries.map(({ cause }) => mendingCost(cause, options, last, pricing)),
  };
}

/** Whatever wants mending may not be left to itself for the sake of what does not. */
const mayBeDone = ({ job, cures }: Option, causes: readonly string[]): boolean =>
  !job.mendsNothing || causes.every((cause) => cures.has(cause));

/** A job that ends a cause at least this surely counts as the way to mend it. */
const MENDS = 0.5;

/** The cheapest sure way to mend a cause, another trade having to come for it; nothing where no job is known. */
function mendingCost(
  cause: string,
  options: readonly Option[],
  last: Option | null,
  pricing: Pricing,
): number {
  const costs = options
    .filter(({ job, cures }) => !job.lastResort && (cures.get(cause) ?? 0) >= MENDS)
    .map(({ job, parts }) => pricing.of(job, parts.length, new Set([last?.job.by ?? job.by])));
  return costs.length > 0 ? Math.min(...costs) : 0;
}

/** A job of the order with what it costs there, the share of what was left that it ends, and what was left before it. */
interface Chosen {
  readonly option: Option;
  readonly cost: number;
  readonly ended: number;
  /** chance, per entry, that this cause was still there */
  readonly left: Float64Array;
}

/**
 * The order of jobs with the least expected cost: highest chance over cost first, each tried until the trouble is gone
 * (Heckerman, Breese & Rommelse 1995; Kadane & Simon 1977), ending with the rule set's last resort, which is taken to
 * end whatever is left. Optimal for one fault and independent costs; a good order for two.
 * @param probabilities one per world of the table
 */
export function strategyOf(
  table: JobTable,
  probabilities: ArrayLike<number>,
  pricing: Pricing,
): Strategy {
  const steps: Step[] = [];
  let expectedCost = 0;
  for (const { option, cost, ended, left } of orderOf(table, probabilities, pricing).reverse()) {
    const cures = Math.min(1, Math.max(0, ended));
    expectedCost = cost + (1 - cures) * expectedCost;
    const ends = (cause: string) => (option === table.last ? 1 : (option.cures.get(cause) ?? 0));
    const cause = leading(table, probabilities, left, ends);
    steps.unshift({ option, cause, cures, cost, expectedCost });
  }
  return { steps, expectedCost };
}

/** The expected cost of that order alone: this is asked for every possible answer. */
export function expectedCostOf(
  table: JobTable,
  probabilities: ArrayLike<number>,
  pricing: Pricing,
): number {
  return orderOf(table, probabilities, pricing).reduceRight(
    (after, { cost, ended }) => cost + (1 - Math.min(1, Math.max(0, ended))) * after,
    0,
  );
}

function orderOf(table: JobTable, probabilities: ArrayLike<number>, pricing: Pricing): Chosen[] {
  const { entries, options, last } = table;
  const there = new Set<Actor>(pricing.there);
  // Chance, per entry, that this cause is still there.
  const left = new Float64Array(entries.length).fill(1);
  const chosen: Chosen[] = [];
  const used = new Set<number>();
  let reach = 1;
  while (chosen.length < MOST_STEPS && reach > ENOUGH) {
    const lastCost = lastResortCost(table, probabilities, left, reach, pricing, there);
    const leftIn = leftByWorld(table, left);
    let best = -1;
    let bestRatio = 0;
    let bestCost = 0;
    options.forEach((option, i) => {
      if (used.has(i)) return;
      const gain = gainOf(table, i, probabilities, left, leftIn) / reach;
      if (gain < LEAST_GAIN) return;
      const cost = pricing.of(option.job, option.parts.length, there);
      // Not worth trying where the last resort would do it for less.
      if (gain * lastCost <= cost || gain / cost <= bestRatio) return;
      best = i;
      bestRatio = gain / cost;
      bestCost = cost;
    });
    const option = options[best];
    if (!option) break;
    const before = left.slice();
    for (const { entry, cure } of table.ends[best] ?? [])
      left[entry] = (left[entry] ?? 0) * (1 - cure);
    used.add(best);
    there.add(option.job.by);
    const after = uncured(table, probabilities, left);
    chosen.push({ option, cost: bestCost, ended: (reach - after) / reach, left: before });
    reach = after;
  }
  if (last && reach > ENOUGH) {
    const cost = lastResortCost(table, probabilities, left, reach, pricing, there);
    chosen.push({ option: last, cost, ended: 1, left });
  }
  return chosen;
}

/** Somebody comes, finds what is left, and mends it. */
function lastResortCost(
  { last, entries, mending }: JobTable,
  probabilities: ArrayLike<number>,
  left: Float64Array,
  reach: number,
  pricing: Pricing,
  there: ReadonlySet<Actor>,
): number {
  if (!last) return Number.POSITIVE_INFINITY;
  let mend = 0;
  entries.forEach(({ world }, e) => {
    mend += (probabilities[world] ?? 0) * (left[e] ?? 0) * (mending[e] ?? 0);
  });
  return pricing.of(last.job, 1, there) + mend / reach;
}

/** Chance that the trouble is still there: any of a world's causes left. */
function uncured(table: JobTable, probabilities: ArrayLike<number>, left: Float64Array): number {
  let total = 0;
  for (let w = 0; w + 1 < table.firstEntry.length; w++) {
    let gone = 1;
    for (let e = table.firstEntry[w] ?? 0; e < (table.firstEntry[w + 1] ?? 0); e++)
      gone *= 1 - (left[e] ?? 0);
    total += (probabilities[w] ?? 0) * (1 - gone);
  }
  return total;
}

/** How many causes are still there to be expected, by world. */
function leftByWorld({ firstEntry }: JobTable, left: Float64Array): Float64Array {
  return Float64Array.from({ length: firstEntry.length - 1 }, (_, w) => {
    let sum = 0;
    for (let e = firstEntry[w] ?? 0; e < (firstEntry[w + 1] ?? 0); e++) sum += left[e] ?? 0;
    return sum;
  });
}

/** Chance that an option removes, a fault counting half beside one that is still there, and in full once that was mended. */
function gainOf(
  table: JobTable,
  option: number,
  probabilities: ArrayLike<number>,
  left: Float64Array,
  leftIn: Float64Array,
): number {
  let gain = 0;
  for (const { entry, cure } of table.ends[option] ?? []) {
    const at = table.entries[entry];
    if (!at) continue;
    const still = left[entry] ?? 0;
    const beside = (leftIn[at.world] ?? 0) - still;
    gain += ((probabilities[at.world] ?? 0) * cure * still) / (1 + beside);
  }
  return gain;
}

/** The cause with most chance left among those that `weight` counts. */
function leading(
  table: JobTable,
  probabilities: ArrayLike<number>,
  left: Float64Array,
  weight: (cause: string) => number,
): string {
  const totals = new Map<string, number>();
  table.entries.forEach(({ world, cause }, e) => {
    const amount = (probabilities[world] ?? 0) * weight(cause) * (left[e] ?? 0);
    totals.set(cause, (totals.get(cause) ?? 0) + amount);
  });
  let best = NOT_LISTED;
  for (const [cause, amount] of totals) if (amount > (totals.get(best) ?? 0)) best = cause;
  return best;
}
