import type { Taps } from '../../shared/case/taps.ts';
import type { Line, Solution } from '../../shared/hydraulics/line/types.ts';
import { pumpInletPa, pumpOutletPa, solveLine } from '../../shared/hydraulics/line.ts';
import { paToBar } from '../../shared/hydraulics/units.ts';
import type { GaugePart } from '../../shared/plant/parts.ts';
import type { Random } from './random.ts';
import { lineWithTap, lossClosedLpm, restingPa, tapLpm, taps } from './running.ts';
import type { World } from './world.ts';

/** One reading of a gauge in a hundred is taken off by a numbered mark. */
const MISREAD = 0.01;

/** What the gauges show in a tap state, read to half a division; the flow where the plant's people have a water meter. */
export function readGauges(
  world: World,
  state: Taps,
  ids: readonly string[],
  random: Random,
): unknown {
  const { condition, plant } = world;
  const { solution, runs } =
    state === 'closed' ? closed(world, random) : open(world, state, random);
  const bar: Record<string, number | 'unknown'> = {};
  for (const id of ids) {
    const gauge = plant.line.find((p): p is GaugePart => p.kind === 'gauge' && p.id === id);
    const error = condition.gauges.get(id);
    const point = solution.points.find(({ after }) => after === id);
    if (!gauge || !error || !point) continue;
    const swing = state === 'closed' ? 0 : random.normal(0.5 * condition.unsteadyShare);
    const shown =
      error.stuckBar ?? paToBar(point.pa) * (1 + swing) * (1 + error.gain) + error.offsetBar;
    const slip = random.chance(MISREAD) ? (random.chance(0.5) ? 0.5 : -0.5) : 0;
    const half = (gauge.divisionBar ?? 0.2) / 2;
    const top = gauge.rangeBar ?? 10;
    bar[id] = Math.min(top, Math.max(0, Math.round((shown + slip) / half) * half));
  }
  for (const id of Object.keys(bar)) bar[id] = Math.round(Number(bar[id]) * 1000) / 1000;
  return { taps: state, bar, ...(random.chance(0.4) && { pump: runs ? 'on' : 'off' }) };
}

/** The pressures at one moment, and whether the motor turns then. */
interface Moment {
  readonly solution: Solution;
  readonly runs: boolean;
}

/** All shut: no flow, the pressure anywhere it may rest. */
function closed({ condition }: World, random: Random): Moment {
  const { line, gives } = condition;
  const rest = restingPa(condition);
  const still = (pa: number, runs = false): Moment => ({
    solution: solveLine(held({ ...line, house: { ...line.house, leakK: 0 } }, pa), 'closed'),
    runs,
  });
  if (rest) {
    const { kind } = line.control;
    const leaks = lossClosedLpm(condition, rest.highPa) > 0;
    if (kind === 'pressure-switch') return still(random.between(rest.lowPa, rest.highPa));
    if (kind === 'flow-controller' && leaks) return still(random.between(rest.lowPa, rest.highPa));
    return still(rest.highPa - random.between(0, 0.02) * rest.highPa);
  }
  if (!gives && line.pump) return still(pumpOutletPa(line, 0), true);
  // The pump gives nothing: some pressure may still be shut in, or all is drawn off.
  const gravity = Math.max(0, pumpInletPa(line, 0));
  const shutIn = gives !== null && random.chance(0.3);
  return still(shutIn ? random.between(gravity, 2e5) : gravity, gives === 'runs-dry');
}

/** Water running: while the pump cycles, the pressure stands anywhere between start and stop. */
function open(world: World, state: Exclude<Taps, 'closed'>, random: Random): Moment {
  const { condition, weakTap } = world;
  const line = lineWithTap(condition, weakTap);
  const count =
    state === 'part-open'
      ? random.between(0.2, 0.8)
      : typeof state.open === 'number'
        ? state.open
        : state.open.length;
  const opened = taps(condition, count);
  const solution = solveLine(line, opened);
  if (!solution.cycle) {
    const turns = line.pump !== null && condition.gives !== 'silent' && condition.gives !== 'hums';
    return { solution, runs: turns && (condition.gives !== null || solution.running === 'steady') };
  }
  const { lowPa, highPa, onS, offS } = solution.cycle;
  return {
    solution: solveLine(held(line, random.between(lowPa, highPa)), opened),
    runs: random.chance(onS / (onS + offS)),
  };
}

/** The line with a source that holds one pressure. */
function held(line: Line, pa: number): Line {
  const { pump } = line;
  // Only the pressure that the vessel still holds stands behind the pump, whether it could give it or not.
  const strong = pump && { ...pump, drive: true, headFactor: 1e3, npshRequired: null };
  return {
    ...line,
    extraSuctionLossK: 0,
    pump: strong,
    control: pump ? { kind: 'variable-speed', setPa: pa } : line.control,
  };
}

/** Litres and seconds of a bucket under one tap; null where nothing comes. */
export function bucket(world: World, random: Random): { litres: number; seconds: number } | null {
  const { condition, weakTap } = world;
  const noise = Math.exp(random.normal(0.04 + 0.3 * condition.unsteadyShare));
  const own = tapLpm(condition, weakTap) * noise;
  if (own < 0.3) return null;
  return {
    litres: 10,
    seconds: Math.max(1, Math.round((600 / own) * 2) / 2 + random.whole(-1, 1) * 0.5),
  };
}
