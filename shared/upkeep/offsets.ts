import { gaugeUncertainty } from '../hydraulics/gauge.ts';
import { GRAVITY_M_S2, paToBar } from '../hydraulics/units.ts';
import { densityKgM3 } from '../hydraulics/water.ts';
import type { ResolvedOf } from '../plant/defaults.ts';
import { daysOfWork, type Upkeep } from './history.ts';
import type { UpkeepRules } from './rules.ts';

type Gauge = ResolvedOf<'gauge'>;

/** What two gauges show apart when nothing flows (first less second): their own errors and the height between them. */
export interface Apart {
  readonly bar: number;
  /** standard uncertainty, bar; all drops between the two share this error */
  readonly u: number;
  /** mean pressure of the closed readings at the first gauge, bar; null without any */
  readonly atBar: number | null;
}

/** At rest a pointer stands still: read to half a division it is rounded by no more than a quarter. */
const ROUNDING = 0.5;
/** Half of the differences lie within so many reading errors; one far outside was misread. */
const FAR = 4;

/**
 * The difference two gauges keep, from every closed reading since either was changed. The errors of reading average
 * out over the rounds, what remains is a constant. Without a closed reading: the height alone, with both gauges' class.
 */
export function apartOnDay(
  upkeep: Upkeep,
  rules: UpkeepRules,
  first: Gauge,
  second: Gauge,
  day: number,
): Apart {
  const changes = [first.id, second.id]
    .flatMap((id) => namedDays(upkeep, rules, id))
    .sort((a, b) => a - b);
  const from = changes.filter((change) => change <= day).at(-1) ?? Number.NEGATIVE_INFINITY;
  const to = changes.find((change) => change > day) ?? Number.POSITIVE_INFINITY;
  const pairs = upkeep.rounds.flatMap(({ day: on, readings }) => {
    if (readings.taps !== 'closed' || on < from || on >= to) return [];
    const a = readings.bar[first.id];
    const b = readings.bar[second.id];
    return typeof a === 'number' && typeof b === 'number' ? [{ at: a, apart: a - b }] : [];
  });
  const one = gaugeUncertainty(first);
  const two = gaugeUncertainty(second);
  const reading = Math.hypot(one.readingBar, two.readingBar);
  if (pairs.length === 0) {
    const waterPaM = densityKgM3(upkeep.resolved.waterTempC) * GRAVITY_M_S2;
    return {
      bar: paToBar(waterPaM * (second.heightM - first.heightM)),
      u: Math.hypot(one.offsetBar, two.offsetBar),
      atBar: null,
    };
  }
  const middle = median(pairs.map((pair) => pair.apart));
  const near = pairs.filter((pair) => Math.abs(pair.apart - middle) <= FAR * reading);
  const used = near.length > 0 ? near : pairs;
  return {
    bar: mean(used.map((pair) => pair.apart)),
    u: (ROUNDING * reading) / Math.sqrt(distinct(used)),
    atBar: mean(used.map((pair) => pair.at)),
  };
}

/**
 * How many different readings there were: a plant that rests at the same pressure every time is rounded alike every time,
 * and reading it again tells nothing new.
 */
const distinct = (pairs: readonly { at: number; apart: number }[]): number =>
  new Set(pairs.map(({ at, apart }) => `${at.toFixed(3)} ${apart.toFixed(3)}`)).size;

/** Only a record that names the gauge says that this one was changed. */
function namedDays(upkeep: Upkeep, rules: UpkeepRules, id: string): number[] {
  return daysOfWork(
    upkeep.done.filter((work) => work.parts !== null),
    rules.gaugeJobs,
    id,
  );
}

export const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = Math.floor(sorted.length / 2);
  const upper = sorted[half] ?? Number.NaN;
  return sorted.length % 2 === 1 ? upper : (upper + (sorted[half - 1] ?? upper)) / 2;
}
