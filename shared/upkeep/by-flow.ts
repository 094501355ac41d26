import type { FlowTest } from '../case/values.ts';
import { type Line, type OpenTaps, solveLine } from '../hydraulics/line.ts';
import { bucketFlow } from '../hydraulics/tap.ts';
import { lpmToM3s } from '../hydraulics/units.ts';
import { waterAt } from '../hydraulics/water.ts';
import { MEASURED_U, openTaps } from './flow.ts';
import type { Upkeep } from './history.ts';
import type { Point, StageSeries } from './resistance.ts';

/** A flow measured at open taps. */
interface MeasuredFlow {
  readonly day: number;
  readonly open: OpenTaps;
  readonly m3s: number;
  readonly uShare: number;
  readonly waterTempC: number;
}

const NEVER = 1e5;
const BISECTIONS = 40;

/**
 * A plant without gauges on both sides of a filter still tells by its flow: the linear resistance that all filters together
 * must have for the solved line to give what was measured. What the taps or the pump are off by stands in both the readings
 * and the limit, and mostly goes out. Null without a filter or a measured flow.
 */
export function seriesByFlow(upkeep: Upkeep): StageSeries | null {
  const filters = upkeep.line.elements.filter((element) => element.kind === 'filter');
  const flows = measuredFlows(upkeep);
  if (filters.length === 0 || flows.length === 0) return null;
  const clean = filters.reduce((sum, filter) => sum + filter.linear, 0);
  return {
    from: upkeep.line.pump?.id ?? upkeep.line.tank.id ?? '',
    to: upkeep.line.house.id,
    filters: filters.map(({ id }) => id),
    clean,
    cleans: filters.map((filter) => filter.linear),
    // The taps' own error is in it, so a clean start is known no better than by a default.
    cleanAssumed: true,
    keptPa: 0,
    keptFlowU: 0,
    points: flows.flatMap((flow) => pointOf(upkeep.line, clean, flow) ?? []),
  };
}

function measuredFlows(upkeep: Upkeep): MeasuredFlow[] {
  const byRound = upkeep.rounds.flatMap(({ day, readings, waterTempC }): MeasuredFlow[] => {
    const open = openTaps(readings.taps);
    const { flowLpm } = readings;
    if (!open || !flowLpm) return [];
    return [{ day, open, m3s: lpmToM3s(flowLpm), uShare: MEASURED_U, waterTempC }];
  });
  const byBucket = upkeep.answers.flatMap(({ day, kind, value }): MeasuredFlow[] => {
    if (kind !== 'flow') return [];
    const { litres, seconds, taps } = value as FlowTest;
    const open = openTaps(taps ?? { open: 1 });
    if (!open || litres === 0) return [];
    const { m3s, u } = bucketFlow(litres, seconds);
    const { waterTempC } = upkeep.resolved;
    return [{ day, open, m3s, uShare: u / m3s, waterTempC }];
  });
  return [...byRound, ...byBucket].sort((a, b) => a.day - b.day);
}

/** Null where the flow is so small, or so insensitive, that no resistance explains it. */
function pointOf(line: Line, clean: number, flow: MeasuredFlow): Point | null {
  const warm = { ...line, water: waterAt(flow.waterTempC) };
  const at = (m3s: number) => timesFor(warm, flow.open, m3s);
  const times = at(flow.m3s);
  const more = at(flow.m3s * (1 - flow.uShare));
  const less = at(flow.m3s * (1 + flow.uShare));
  if (!(more < NEVER)) return null;
  const u = Math.max((more - less) / 2, 0.05);
  return {
    ...{ day: flow.day, resistance: times * clean, perPa: 0, uByDrop: u * clean },
    ...{ uByFlow: 0, housings: 0 },
  };
}

/** Times clean of all filters at which the line gives a flow: 0 where it gives less than that with none, at most `NEVER`. */
function timesFor(line: Line, open: OpenTaps, m3s: number): number {
  const flowAt = (linearFactor: number) => {
    const elements = line.elements.map((element) =>
      element.kind === 'filter' ? { ...element, linearFactor } : element,
    );
    return solveLine({ ...line, elements }, open).flowM3s;
  };
  if (flowAt(0) <= m3s) return 0;
  if (flowAt(NEVER) >= m3s) return NEVER;
  let [low, high] = [0, NEVER];
  for (let step = 0; step < BISECTIONS && high - low > 1e-4 * (1 + low); step++) {
    const middle = high > 4 * (low + 1) ? Math.sqrt((low + 1) * (high + 1)) - 1 : (low + high) / 2;
    if (flowAt(middle) >= m3s) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
