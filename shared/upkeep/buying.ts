import type { Day } from '../case/answer.ts';
import type { RuleSet } from '../ruleset/schema.ts';
import { dayNumber, dayOf } from './days.ts';
import type { DueEntry } from './due.ts';
import type { UpkeepRules } from './rules.ts';

/** Something to have at hand when a part falls due. */
export interface Purchase {
  /** order by this day: so many days before the earliest day of the interval */
  readonly by: Day;
  readonly part: string;
  readonly job: string;
  /** ids of what the job needs (words under `van`) */
  readonly items: readonly string[];
  readonly money: number;
}

/** What to buy before when, for the binding reason of each part; looking at something needs no order. */
export function purchasesOf(
  due: readonly DueEntry[],
  rules: UpkeepRules,
  ruleSet: RuleSet,
): Purchase[] {
  return due
    .flatMap(({ first, part, from, job }): Purchase[] => {
      const table = job === null ? undefined : ruleSet.jobs[job];
      if (!first || job === null || !table?.renews) return [];
      const by = dayOf(dayNumber(from) - rules.buying.daysBefore);
      return [{ by, part, job, items: table.van, money: table.money }];
    })
    .sort((a, b) => Number(a.by > b.by) - Number(a.by < b.by));
}

/** One thing for a round of many plants. */
export interface RoundPurchase {
  readonly item: string;
  readonly count: number;
  /** the earliest day that any of the plants asks for */
  readonly by: Day;
  readonly plants: readonly string[];
}

/**
 * What to load for a round of many plants: everything to be ordered up to a day, by thing.
 *
 * @param carried ids of things that serve every plant: one is enough
 */
export function roundPurchases(
  plants: readonly { readonly name: string; readonly buy: readonly Purchase[] }[],
  until: Day,
  carried: readonly string[],
): RoundPurchase[] {
  const wanted = plants
    .flatMap(({ name, buy }) => buy.map((one) => ({ ...one, name })))
    .filter((one) => one.by <= until)
    .sort((a, b) => Number(a.by > b.by) - Number(a.by < b.by));
  const found = new Map<string, { count: number; by: Day; plants: Set<string> }>();
  for (const { by, items, name } of wanted) {
    for (const item of items) {
      // The first met is the earliest.
      const there = found.get(item) ?? { count: 0, by, plants: new Set<string>() };
      if (there.count === 0 || !carried.includes(item)) there.count += 1;
      there.plants.add(name);
      found.set(item, there);
    }
  }
  return [...found].map(([item, { count, by, plants }]) => ({
    ...{ item, count, by, plants: [...plants] },
  }));
}
