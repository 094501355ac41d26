import type { CycleTimes } from '../case/values.ts';
import { type Line, pumpFlowAtM3s } from '../hydraulics/line.ts';
import { barToPa, paToBar } from '../hydraulics/units.ts';
import { drawdownFromTimes, gasFromDrawdown } from '../hydraulics/vessel.ts';
import { DAYS_PER_MONTH } from './days.ts';
import type { DateForecast } from './forecast.ts';
import { daysOfWork, type Upkeep } from './history.ts';
import type { UpkeepRules } from './rules.ts';
import { dayFallsTo, type Reading, trendOf } from './trend.ts';

export interface VesselGas {
  readonly part: string;
  /** precharge over time, bar: measured, or told by how long the pump runs and rests */
  readonly points: readonly Reading[];
  readonly prechargeBar: number;
  /** bar lost in a month; null: not enough readings */
  readonly lostPerMonthBar: number | null;
  readonly limitBar: number;
  readonly forecast: DateForecast | null;
}

/** Run and rest by watch, and the pump's flow by its curve: the drawdown is good to about 10 % (our own estimate). */
const DRAWDOWN_U = 0.1;
/** A tyre gauge on the gas valve, bar (common practice). */
const GAUGE_U_BAR = 0.07;
/** Cycle times that no charge explains within this share are the vessel's full charge. */
const FULL = 1.15;

/**
 * Gas left in the vessel of a switch-controlled plant, from precharge tests and cycle times since it was last set.
 * Several vessels count as one.
 */
export function vesselGas(upkeep: Upkeep, rules: UpkeepRules, horizon: number): VesselGas | null {
  const { line } = upkeep;
  const { control } = line;
  const [vessel] = line.vessels;
  if (!vessel || control.kind !== 'pressure-switch') return null;
  const set = daysOfWork(upkeep.done, rules.vessel.jobs, vessel.id).at(-1);
  const full = paToBar(vessel.prechargePa);
  const measured = upkeep.answers.flatMap(({ day, kind, value }): Reading[] => {
    if (set !== undefined && day < set) return [];
    if (kind === 'precharge') {
      const bar = value === 'water-at-valve' ? 0 : (value as { bar: number }).bar;
      return [{ day, value: bar, u: GAUGE_U_BAR }];
    }
    if (kind !== 'cycle-times') return [];
    const found = prechargeFromTimes(line, value as CycleTimes);
    return found ? [{ day, ...found }] : [];
  });
  const points =
    set === undefined ? measured : [{ day: set, value: full, u: GAUGE_U_BAR }, ...measured];
  const last = points.at(-1);
  if (!last || measured.length === 0) return null;
  const trend = trendOf(points);
  const limitBar = paToBar(control.cutInPa) - rules.vessel.underCutInBar;
  return {
    part: vessel.id,
    points,
    prechargeBar: last.value,
    lostPerMonthBar: trend ? -trend.perDay * DAYS_PER_MONTH : null,
    limitBar,
    forecast: trend && dayFallsTo(trend, limitBar, 0, horizon),
  };
}

/** The precharge that run and rest times tell of, taken as too little and not too much gas; null where none explains them. */
function prechargeFromTimes(line: Line, times: CycleTimes): { value: number; u: number } | null {
  const { control } = line;
  if (control.kind !== 'pressure-switch') return null;
  const { cutInPa, cutOutPa } = control;
  const volume = line.vessels.reduce((sum, vessel) => sum + vessel.volumeM3, 0);
  const drawdown = drawdownFromTimes(times, pumpFlowAtM3s(line, (cutInPa + cutOutPa) / 2));
  const at = (water: number) =>
    gasFromDrawdown(water, volume, cutInPa, cutOutPa, line.airPa).prechargeUnderPa;
  const pa = at(drawdown);
  const value = pa ?? (at(drawdown / FULL) === null ? null : cutInPa);
  if (value === null) return null;
  const u = DRAWDOWN_U * (value + line.airPa);
  return { value: paToBar(value), u: paToBar(Math.max(u, barToPa(GAUGE_U_BAR))) };
}
