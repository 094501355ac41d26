import type { DateForecast } from './forecast.ts';
import { evenNumber, normalQuantile, quantileOf } from './sampling.ts';

/** A value read on a day with its standard uncertainty. */
export interface Reading {
  readonly day: number;
  readonly value: number;
  readonly u: number;
}

/** A straight line through readings: value at the mean day and change per day, which are then independent. */
export interface Trend {
  readonly meanDay: number;
  readonly value: number;
  readonly valueU: number;
  readonly perDay: number;
  readonly perDayU: number;
}

/**
 * Weighted least squares. Where the readings scatter more than they should, the uncertainties grow with them.
 * @returns null with fewer than three readings or all on one day
 */
export function trendOf(readings: readonly Reading[]): Trend | null {
  if (readings.length < 3) return null;
  let [weights, days, values] = [0, 0, 0];
  for (const { day, value, u } of readings) {
    const w = 1 / u ** 2;
    weights += w;
    days += w * day;
    values += w * value;
  }
  const meanDay = days / weights;
  const middle = values / weights;
  let [spread, product] = [0, 0];
  for (const { day, value, u } of readings) {
    spread += (day - meanDay) ** 2 / u ** 2;
    product += ((day - meanDay) * (value - middle)) / u ** 2;
  }
  if (!(spread > 0)) return null;
  const perDay = product / spread;
  const misfit = readings.reduce(
    (sum, { day, value, u }) => sum + ((value - middle - perDay * (day - meanDay)) / u) ** 2,
    0,
  );
  const scale = Math.sqrt(Math.max(1, misfit / (readings.length - 2)));
  return {
    meanDay,
    value: middle,
    valueU: scale / Math.sqrt(weights),
    perDay,
    perDayU: scale / Math.sqrt(spread),
  };
}

const DRAWS = 400;
/** A slope is told from nothing when it is so many times its standard uncertainty. */
const TOLD_FROM = 2;

/**
 * Day on which a falling trend reaches a level, with its 80 % interval.
 *
 * @param keptU error that all readings share (a gauge's own offset), in units of the value
 * @returns null where it does not fall for sure, or not before the horizon
 */
export function dayFallsTo(
  trend: Trend,
  level: number,
  keptU: number,
  horizon: number,
): DateForecast | null {
  if (trend.perDay > -TOLD_FROM * trend.perDayU) return null;
  const days: number[] = [];
  for (let i = 0; i < DRAWS; i++) {
    const draw = (stream: number) => normalQuantile(evenNumber(i, stream));
    const value = trend.value + Math.hypot(trend.valueU, keptU) * draw(0);
    const perDay = trend.perDay + trend.perDayU * draw(1);
    days.push(perDay < 0 ? trend.meanDay + (level - value) / perDay : Number.POSITIVE_INFINITY);
  }
  const chance = days.filter((day) => day <= horizon).length / DRAWS;
  if (chance < 0.5) return null;
  return {
    on: quantileOf(days, 0.5),
    from: quantileOf(days, 0.1),
    to: quantileOf(days, 0.9),
    chance,
  };
}
