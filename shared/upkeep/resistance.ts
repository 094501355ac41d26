import { gaugeUncertainty } from '../hydraulics/gauge.ts';
import { barToPa } from '../hydraulics/units.ts';
import { type Water, waterAt } from '../hydraulics/water.ts';
import type { ResolvedOf } from '../plant/defaults.ts';
import { flowsOf, type RoundFlow } from './flow.ts';
import type { Round, Upkeep } from './history.ts';
import { type Apart, apartOnDay, median } from './offsets.ts';
import type { UpkeepRules } from './rules.ts';

type Gauge = ResolvedOf<'gauge'>;

/**
 * One reading pair as it speaks of the filters between two gauges: their linear resistance at 20 °C, in Pa/(m³/s).
 * Told as an amount and not as a drop, so that readings of different days, taps and temperatures compare.
 */
export interface Point {
  readonly day: number;
  readonly resistance: number;
  /** what a drop of 1 Pa makes of it, 1/(m³/s); 0 where no drop was read */
  readonly perPa: number;
  /** standard uncertainty by the pressures read, Pa/(m³/s) */
  readonly uByDrop: number;
  /** standard uncertainty of the flow as a share: it multiplies resistance + `housings` */
  readonly uByFlow: number;
  /** what the square-law parts cost besides, twice their share per flow: a flow error acts on it too, Pa/(m³/s) */
  readonly housings: number;
}

/** Standard uncertainty of a point if the true resistance were this, Pa/(m³/s). */
export const uncertaintyAt = (point: Point, resistance: number): number =>
  Math.hypot(point.uByDrop, point.uByFlow * (resistance + point.housings));

/** The filters between two gauges that were read, and what the record says of them. */
export interface StageSeries {
  readonly from: string;
  readonly to: string;
  /** ids of the filters in it; their loading is told together */
  readonly filters: readonly string[];
  /** their clean linear resistance by the data sheet, or by the defaults, Pa/(m³/s) */
  readonly clean: number;
  /** the same of each of them */
  readonly cleans: readonly number[];
  /** a data sheet's figure was left out: the clean value is a guess within a factor of 2 */
  readonly cleanAssumed: boolean;
  /** standard uncertainty of the drop error that all points share (what is left of the gauges' kept errors), Pa */
  readonly keptPa: number;
  /** standard uncertainty of the flow error that the latest points share, as a share */
  readonly keptFlowU: number;
  readonly points: readonly Point[];
}

/** So many of the latest points tell how far the flow is kept wrong now. */
const LATEST = 3;

/**
 * Resistance over time of every stretch between neighbouring gauges that holds a filter.
 * A stretch with an open bypass or a pressure reducer is left out: its drop says nothing of its filters.
 */
export function stageSeries(upkeep: Upkeep, rules: UpkeepRules): StageSeries[] {
  const flows = flowsOf(upkeep);
  const everRead = upkeep.resolved.line.filter(
    (part): part is Gauge =>
      part.kind === 'gauge' &&
      upkeep.rounds.some(({ readings }) => typeof readings.bar[part.id] === 'number'),
  );
  return everRead.slice(1).flatMap((to, i) => {
    const from = everRead[i];
    return from ? seriesBetween(upkeep, rules, flows, from, to) : [];
  });
}

function seriesBetween(
  upkeep: Upkeep,
  rules: UpkeepRules,
  flows: readonly (RoundFlow | null)[],
  from: Gauge,
  to: Gauge,
): StageSeries[] {
  const { line } = upkeep;
  const at = (gauge: Gauge) => line.elements.findIndex((element) => element.id === gauge.id);
  const [first, last] = [at(from), at(to)];
  const between = line.elements.slice(first + 1, last);
  const filters = between.filter((element) => element.kind === 'filter');
  const hidden =
    first < 0 ||
    between.some((element) => element.setPa !== null) ||
    line.bypasses.some((b) => b.open && b.first < last && b.last > first);
  if (filters.length === 0 || hidden) return [];
  const others = between.filter((element) => element.kind !== 'filter');
  const stretch: Stretch = {
    linear: sum(others.map((element) => element.linear)),
    quadratic: sum(between.map((element) => element.quadratic)),
    extraK: sum(between.map((element) => element.extraK)),
  };
  const kept: { pa: number; flowShare: number }[] = [];
  const points = upkeep.rounds.flatMap((round, i) => {
    const flow = flows[i];
    if (!flow || round.readings.taps === 'closed') return [];
    const apart = apartOnDay(upkeep, rules, from, to, round.day);
    const point = pointOf(stretch, round, flow, from, to, apart);
    if (!point) return [];
    kept.push({ pa: barToPa(apart.u), flowShare: flow.keptShare });
    return [point];
  });
  const ids = filters.map((filter) => filter.id);
  const latest = kept.slice(-LATEST);
  return [
    {
      from: from.id,
      to: to.id,
      filters: ids,
      clean: sum(filters.map((filter) => filter.linear)),
      cleans: filters.map((filter) => filter.linear),
      cleanAssumed: upkeep.assumed.some(
        (one) => ids.includes(one.part) && one.field === 'clean.dropBar',
      ),
      keptPa: kept.length > 0 ? median(kept.map(({ pa }) => pa)) : 0,
      keptFlowU: Math.hypot(...latest.map(({ flowShare }) => flowShare / Math.sqrt(latest.length))),
      points,
    },
  ];
}

/** What stands between two gauges besides the filters' media: it costs pressure and does not load. */
interface Stretch {
  readonly linear: number;
  readonly quadratic: number;
  readonly extraK: number;
}

function pointOf(
  stretch: Stretch,
  { day, readings, waterTempC }: Round,
  { m3s, uShare }: RoundFlow,
  from: Gauge,
  to: Gauge,
  apart: Apart,
): Point | null {
  const before = readings.bar[from.id];
  const after = readings.bar[to.id];
  if (typeof before !== 'number' || typeof after !== 'number') return null;
  const water = waterAt(waterTempC);
  const drop = barToPa(before - after - apart.bar);
  const perFlow = quadraticOf(stretch, water) * m3s;
  const perLinear = 1 / (water.viscosityRatio * m3s);
  return {
    day,
    resistance: (drop - perFlow * m3s) * perLinear - stretch.linear,
    perPa: perLinear,
    uByDrop: barToPa(dropU(from, to, before, after, apart)) * perLinear,
    uByFlow: uShare,
    housings: stretch.linear + (2 * perFlow) / water.viscosityRatio,
  };
}

const quadraticOf = (stretch: Stretch, water: Water): number =>
  stretch.quadratic * water.densityRatio + stretch.extraK;

/** Standard uncertainty of a drop, bar: both read once, gains beyond the closed readings. */
function dropU(from: Gauge, to: Gauge, before: number, after: number, apart: Apart): number {
  const one = gaugeUncertainty(from);
  const two = gaugeUncertainty(to);
  const rest = apart.atBar ?? 0;
  return Math.hypot(
    one.readingBar,
    two.readingBar,
    one.gain * (before - rest),
    two.gain * (after - rest),
  );
}

export const sum = (values: readonly number[]): number =>
  values.reduce((total, value) => total + value, 0);
