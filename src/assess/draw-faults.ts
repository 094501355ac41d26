import { partsInPlace } from '../../shared/case/places.ts';
import type { Plant } from '../../shared/plant/schema.ts';
import type { Cause } from '../../shared/ruleset/cause.ts';
import type { RuleSet } from '../../shared/ruleset/schema.ts';
import { ageShare } from './ages.ts';
import type { Random } from './random.ts';

export interface Fault {
  readonly cause: string;
  readonly part: string;
}

export interface Faults {
  /** one or two, or none at a routine look */
  readonly sought: readonly Fault[];
  /** merely past its life: true as well, but takes no place */
  readonly overdue: readonly Fault[];
  readonly recentWork: readonly string[];
}

/** How causes are drawn: by the generator's own rates, or each as often as any other. */
export type Sampling = 'rates' | 'even';

const WORK_CHANCES: Record<string, number> = {
  filters: 0.2,
  pump: 0.04,
  plumbing: 0.06,
  tank: 0.07,
  electrics: 0.04,
};
/** Somebody looks though nothing is wrong. */
const ROUTINE = 0.05;

/**
 * Draws what is wrong: one or two faults, each with the odds rate × time until noticed × age × recent work of the
 * generator's tables. Two come together as often as the odds say, at most two of one block.
 */
export function drawFaults(
  plant: Plant,
  tables: RuleSet,
  sampling: Sampling,
  random: Random,
): Faults {
  const recentWork = Object.entries(WORK_CHANCES).flatMap(([work, p]) =>
    random.chance(p) ? [work] : [],
  );
  const places: [Fault, number][] = [];
  const overdue: Fault[] = [];
  for (const [cause, table] of Object.entries(tables.causes)) {
    const parts = partsOf(table, plant);
    for (const part of parts) {
      const age = ageShare(plant, part);
      if (table.pastLife) {
        if (age !== null && age > 1) overdue.push({ cause, part });
        continue;
      }
      const shared = table.each && sampling === 'rates' ? 1 : parts.length;
      const odds = sampling === 'even' ? 1 : oddsOf(table, age, recentWork, plant);
      places.push([{ cause, part }, odds / shared]);
    }
  }
  if (random.chance(ROUTINE)) return { sought: [], overdue, recentWork };
  const first = random.weighted(places);
  const rest = places.filter(([{ cause }]) => cause !== first.cause);
  const total = rest.reduce((sum, [, odds]) => sum + odds, 0);
  // Of pairs and singles drawn by odds, a single comes 1 : total/2 against its pairs.
  const second =
    sampling === 'even' ? random.chance(0.35) : random.chance(total / 2 / (1 + total / 2));
  return { sought: second ? [first, random.weighted(rest)] : [first], overdue, recentWork };
}

function oddsOf(table: Cause, age: number | null, work: readonly string[], plant: Plant): number {
  let odds = (table.ratePerYear * table.noticedDays) / 365;
  if (table.lifeMonths !== undefined && age !== null)
    odds *= Math.min(4, Math.max(0.2, age ** 1.3));
  for (const item of work) odds *= table.afterWork[item] ?? 1;
  const { waterTempC } = plant;
  if (table.belowC && waterTempC !== undefined && waterTempC < table.belowC.waterC)
    odds *= table.belowC.times;
  return odds;
}

function partsOf(table: Cause, plant: Plant): string[] {
  const pump = plant.line.find((part) => part.kind === 'pump');
  const control = pump?.control?.kind;
  if (table.control && !(control && table.control.includes(control))) return [];
  return partsInPlace(table.in, plant);
}
