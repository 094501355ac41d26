import { barToPa } from '../hydraulics/units.ts';
import type { RuleSet } from '../ruleset/schema.ts';
import { DAYS_PER_MONTH, DAYS_PER_YEAR } from './days.ts';
import type { Outlook } from './due.ts';
import { dayReached } from './laws.ts';
import type { StageLoading } from './loading.ts';
import type { UpkeepRules } from './rules.ts';
import { evenDraws, quantileOf } from './sampling.ts';

/** What one filter's cartridges cost in a year under three ways of changing them, in the rule set's currency. */
export interface Spend {
  readonly part: string;
  readonly byDate: number | null;
  /** changed when the drop at the need has risen by a fixed amount */
  readonly atFixedDrop: number | null;
  /** changed on the early end of the 80 % interval, or by date where that comes first for taste */
  readonly byForecast: number | null;
  /** days in a year on which the house misses its need when it is changed by date */
  readonly failsDays: number | null;
}

const DRAWS = 200;

/** Reckoned from the loading so far: how long a new cartridge lasts under each rule. */
export function spendOf(outlook: Outlook, rules: UpkeepRules, ruleSet: RuleSet): Spend[] {
  return outlook.stages.flatMap((stage, i) =>
    stage.series.filters.map((part) => ofFilter(outlook, rules, ruleSet, stage, i, part)),
  );
}

function ofFilter(
  { upkeep, limit, stages }: Outlook,
  rules: UpkeepRules,
  ruleSet: RuleSet,
  stage: StageLoading,
  index: number,
  part: string,
): Spend {
  const filter = upkeep.plant.line.find((one) => one.id === part);
  const medium = filter?.kind === 'filter' ? filter.medium : null;
  const life = medium === null ? undefined : rules.lives[medium];
  const money = life && ruleSet.jobs[life.job]?.money;
  const months = (filter?.kind === 'filter' ? filter.lifeMonths : undefined) ?? life?.months;
  const none = { part, byDate: null, atFixedDrop: null, byForecast: null, failsDays: null };
  if (money === undefined) return none;
  const lifeDays = months === undefined ? null : months * DAYS_PER_MONTH;
  const perYear = (days: number | null) =>
    days === null || !Number.isFinite(days) || days <= 0
      ? null
      : Math.round((money * DAYS_PER_YEAR * 10) / days) / 10;
  const byDate = perYear(lifeDays);
  if (!limit || !stage.fit) return { ...none, byDate };
  const { line } = upkeep;
  const others = stages.reduce(
    (sum, other, j) => sum + (j === index ? 0 : (other.fit?.now.resistance ?? other.series.clean)),
    0,
  );
  const needFails = lastsFor(stage, limit.resistance - others);
  // The square-law share of the drop does not load, so the rise is that of the linear term alone.
  const rise = barToPa(rules.fixedDropBar) / (line.water.viscosityRatio * line.house.need.flowM3s);
  const fixedDrop = lastsFor(stage, stage.series.clean + rise);
  const early = quantileOf(needFails, 0.1);
  const middle = quantileOf(needFails, 0.5);
  const forecastDays = lifeDays === null ? early : longerLife(early, lifeDays, medium, ruleSet);
  return {
    part,
    byDate,
    atFixedDrop: perYear(quantileOf(fixedDrop, 0.5)),
    byForecast: perYear(forecastDays),
    failsDays:
      lifeDays === null ? null : Math.round((Math.max(0, lifeDays - middle) / lifeDays) * 365),
  };
}

/** A cartridge whose exhaustion shows as taste and not as pressure keeps its date whatever its resistance. */
function longerLife(
  early: number,
  lifeDays: number,
  medium: string | null,
  { causes }: RuleSet,
): number {
  const tasteEnds = Object.values(causes).some(
    (cause) => cause.in === medium && cause.block === 'quality' && cause.lifeMonths !== undefined,
  );
  return tasteEnds ? Math.min(early, lifeDays) : early;
}

/** Days from new to a resistance, in even draws of what the loading may be; Infinity where it never gets there. */
function lastsFor({ fit, series }: StageLoading, resistance: number): number[] {
  const courses = fit?.courses ?? [];
  return evenDraws(courses, ({ weight }) => weight, DRAWS).map(({ course }) => {
    const from = { ...course, r0: Math.min(course.r0, series.clean) };
    return Math.max(0, dayReached(from, resistance) - course.t0);
  });
}
