import { gaugeUncertainty } from '../hydraulics/gauge.ts';
import { type Line, type LinePump, lossBetweenPa, pumpOutletPa } from '../hydraulics/line.ts';
import { headM } from '../hydraulics/pump.ts';
import { barToPa, GRAVITY_M_S2, lpmToM3s } from '../hydraulics/units.ts';
import type { ResolvedOf } from '../plant/defaults.ts';
import { MEASURED_U } from './flow.ts';
import type { DateForecast } from './forecast.ts';
import { daysOfWork, type Upkeep } from './history.ts';
import { mean } from './offsets.ts';
import type { UpkeepRules } from './rules.ts';
import { dayFallsTo, type Reading, trendOf } from './trend.ts';

/** One point of the pump's curve as it was read. */
export interface PumpPoint extends Reading {
  /** m³/s; 0: against a shut line */
  readonly flowM3s: number;
  /** total head then, m */
  readonly headM: number;
}

export interface PumpWear {
  readonly part: string;
  /** `value` is the head over the new pump's at the same flow */
  readonly points: readonly PumpPoint[];
  /** share of the head left now, with the standard uncertainty of all of it (the gauge's own error included) */
  readonly headShare: number;
  readonly u: number;
  readonly perYear: number | null;
  /** it counts as worn, or no longer reaches cut-out, at this share */
  readonly limitShare: number;
  readonly forecast: DateForecast | null;
}

/** A tank's level on another day than it was written down for: half-width, m (our own estimate). */
const LEVEL_M = 0.4;
/** A gauge between pump and filters sees the pump; a household line costs it little before. */
const LATEST = 6;

/**
 * Head over time against the curve: at no flow (valve shut, or a controller at rest), and at measured flows while the pump
 * runs steadily. Needs a gauge between pump and first filter, for a head at a flow.
 */
export function pumpWear(upkeep: Upkeep, rules: UpkeepRules, horizon: number): PumpWear | null {
  const { line } = upkeep;
  const { pump } = line;
  const gauge = firstGauge(upkeep);
  if (!pump || !gauge) return null;
  const changed = daysOfWork(upkeep.done, [rules.pump.job], pump.id).at(-1);
  const points = [
    ...restPoints(upkeep, line, pump, gauge),
    ...flowPoints(upkeep, line, pump, gauge),
  ]
    .filter((point) => changed === undefined || point.day >= changed)
    .sort((a, b) => a.day - b.day);
  if (points.length === 0) return null;
  const headNow = headM(pump.curve, 0);
  const keptU =
    (barToPa(gaugeUncertainty(gauge).offsetBar) / (line.water.densityKgM3 * GRAVITY_M_S2) +
      LEVEL_M / Math.sqrt(3)) /
    headNow;
  const trend = trendOf(points);
  const latest = points.slice(-LATEST);
  const limitShare = Math.max(rules.pump.headShare, cutOutShare(line, pump));
  return {
    part: pump.id,
    points,
    headShare: mean(latest.map((point) => point.value)),
    u: Math.hypot(keptU, mean(latest.map((point) => point.u)) / Math.sqrt(latest.length)),
    perYear: trend ? trend.perDay * 365.25 : null,
    limitShare,
    forecast: trend && dayFallsTo(trend, limitShare, keptU, horizon),
  };
}

/** The first gauge behind the pump, when no filter stands before it. */
function firstGauge({ resolved, line }: Upkeep): ResolvedOf<'gauge'> | null {
  const first = line.elements.find((one) => one.kind === 'gauge' || one.kind === 'filter');
  const part = resolved.line.find((one) => one.id === first?.id);
  return part?.kind === 'gauge' ? part : null;
}

/** Head from the water's surface to a gauge's reading, m; losses on the way are added to it. */
function headAt(line: Line, gauge: ResolvedOf<'gauge'>, bar: number, flowM3s: number): number {
  const perM = line.water.densityKgM3 * GRAVITY_M_S2;
  const index = line.elements.findIndex((element) => element.id === gauge.id);
  const lost = lossBetweenPa(line, 0, Math.max(0, index), flowM3s);
  const surfaceM = line.tank.levelM + line.tank.outletHeightM;
  return (barToPa(bar) + lost) / perM + gauge.heightM - surfaceM;
}

function restPoints(
  upkeep: Upkeep,
  line: Line,
  pump: LinePump,
  gauge: ResolvedOf<'gauge'>,
): PumpPoint[] {
  const readU = barToPa(gaugeUncertainty(gauge).readingBar);
  const head0 = headM(pump.curve, 0);
  const perM = line.water.densityKgM3 * GRAVITY_M_S2;
  const at = (day: number, bar: number): PumpPoint => {
    const head = headAt(line, gauge, bar, 0);
    return { day, flowM3s: 0, headM: head, value: head / head0, u: readU / perM / head0 };
  };
  const shut = upkeep.answers.flatMap(({ day, kind, value }) => {
    if (kind !== 'pressure' || typeof value !== 'object' || value === null) return [];
    const { bar, gauge: read } = value as { bar: number; gauge?: string };
    return read === undefined || read === gauge.id ? [at(day, bar)] : [];
  });
  // A controller stops its pump at rest near the shut-off head; a switch stops it at cut-out, which says nothing.
  const restsAtHead = line.control.kind === 'flow-controller' || line.control.kind === 'none';
  if (!restsAtHead) return shut;
  const closed = upkeep.rounds.flatMap(({ day, readings }) => {
    const bar = readings.bar[gauge.id];
    return readings.taps === 'closed' && typeof bar === 'number' ? [at(day, bar)] : [];
  });
  return [...shut, ...closed];
}

function flowPoints(
  upkeep: Upkeep,
  line: Line,
  pump: LinePump,
  gauge: ResolvedOf<'gauge'>,
): PumpPoint[] {
  const perM = line.water.densityKgM3 * GRAVITY_M_S2;
  const readU = barToPa(gaugeUncertainty(gauge).readingBar) / perM;
  return upkeep.rounds.flatMap(({ day, readings }) => {
    const bar = readings.bar[gauge.id];
    const { flowLpm } = readings;
    if (readings.taps === 'closed' || readings.pump === 'off') return [];
    if (typeof bar !== 'number' || !flowLpm) return [];
    const flow = lpmToM3s(flowLpm);
    if (!runsSteadily(line, flow)) return [];
    const expected = headM(pump.curve, flow);
    if (!(expected > 0)) return [];
    const falls = expected - headM(pump.curve, flow * (1 + MEASURED_U));
    const head = headAt(line, gauge, bar, flow);
    const u = Math.hypot(readU, falls) / expected;
    return [{ day, flowM3s: flow, headM: head, value: head / expected, u }];
  });
}

/** Whether the pump must be running all the time at a flow: else a gauge may show the vessel and not the pump. */
function runsSteadily(line: Line, flowM3s: number): boolean {
  const { control } = line;
  const outletPa = pumpOutletPa(line, flowM3s);
  if (control.kind === 'pressure-switch') return outletPa < control.cutOutPa;
  if (control.kind === 'variable-speed') return outletPa < control.setPa;
  return control.kind === 'none' || flowM3s > control.minFlowM3s;
}

/** Share of the head at which a switch's cut-out is just reached; 0 where there is no switch. */
function cutOutShare(line: Line, pump: LinePump): number {
  if (line.control.kind !== 'pressure-switch') return 0;
  const surfaceM = line.tank.levelM + line.tank.outletHeightM;
  const needed = line.control.cutOutPa / (line.water.densityKgM3 * GRAVITY_M_S2);
  return (needed + pump.heightM - surfaceM) / headM(pump.curve, 0);
}
