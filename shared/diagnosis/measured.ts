import type { CycleTimes } from '../case/values.ts';
import type { Effect } from './effects.ts';
import type { Curves } from './flow-grid.ts';
import { density } from './normal.ts';
import { cycleChance } from './running.ts';
import type { Source } from './source.ts';

/**
 * Single measurements whose likelihood follows from the solved source and the faults present: one function each.
 * Spreads are common practice.
 */
const SURPRISE = 0.01;

/** Head at no flow, the valve after the pump shut for some seconds. `levelBar` is at the pump's height. */
export function shutOffChance(levelBar: number, readSd: number, source: Source): number {
  return density(levelBar, source.raw[0] ?? 0, Math.hypot(readSd, source.sd[0] ?? 0)) + SURPRISE;
}

const HOLD_READ_BAR = 0.03;
const TIGHT_BAR = 0.02;

/** Pressure lost with taps shut and pump off; `isolated`: the valve to the house shut, so only what passes back counts. */
export function holdChance(
  lostBar: number,
  minutes: number,
  isolated: boolean,
  source: Source,
): number {
  const lpm = source.backLeakLpm + (isolated ? 0 : source.leakLpm);
  const span = Math.max(0.3, source.highBar - source.lowBar);
  const barPerL =
    source.control === 'pressure-switch'
      ? span / source.drawdownL
      : 1 / Math.max(0.3, source.drawdownL);
  const expected = Math.min(Math.max(0.5, source.highBar), lpm * minutes * barPerL);
  const seen = Math.log(lostBar + HOLD_READ_BAR);
  const tight = density(seen, Math.log(TIGHT_BAR + HOLD_READ_BAR), 0.45);
  if (lpm === 0) return tight + SURPRISE;
  return density(seen, Math.log(expected + TIGHT_BAR + HOLD_READ_BAR), 0.7) + SURPRISE;
}

/** Gas pressure in the vessel, pump off and line drained. */
export function prechargeChance(
  value: { bar: number } | 'water-at-valve',
  assumed: boolean,
  source: Source,
): number {
  if (value === 'water-at-valve') return source.waterlogged ? 0.9 : SURPRISE;
  if (source.waterlogged) return 0.1;
  return density(value.bar, source.prechargeBar ?? 0, assumed ? 0.35 : 0.2) + SURPRISE;
}

/** A timed cycle with all taps shut: the water goes to a leak, or nothing is lost and it should not cycle at all. */
export function closedCycleChance(cycle: CycleTimes, source: Source): number {
  const lpm = source.leakLpm + source.backLeakLpm;
  return cycleChance(cycle, source, lpm, lpm > 0 && !source.gives ? 1 : 0);
}

/** Flow tried with some cartridges out. */
export function housingChance(
  removed: readonly number[],
  result: string,
  effects: readonly Effect[],
): number {
  const restricting = effects.filter(
    (effect) =>
      effect.partLoss || effect.sourceLoss || effect.outletLn !== 0 || effect.pipeTimes !== 1,
  );
  const out = restricting.filter((effect) => effect.partLoss && removed.includes(effect.at));
  const chances: Record<string, number> =
    out.length === 0
      ? { restored: 0.03, better: 0.12, same: 0.85 }
      : out.length === restricting.length
        ? { restored: 0.75, better: 0.22, same: 0.03 }
        : { restored: 0.2, better: 0.65, same: 0.15 };
  return chances[result] ?? SURPRISE;
}

/** The tank: a level in metres or in words against what the scenario says. Low is under 0.2 m over the outlet (contract). */
export function tankChance(value: { m: number } | string, effects: readonly Effect[]): number {
  const level = effects.map((effect) => effect.change.levelM).find((m) => m !== undefined);
  if (typeof value !== 'string')
    return level === undefined ? (value.m < 0.2 ? 0.01 : 1) : value.m < 0.2 ? 1 : 0.02;
  const chances: Record<string, number> =
    level === undefined
      ? { full: 0.42, half: 0.47, low: 0.1, 'below-outlet': 0.01 }
      : level > 0
        ? { full: 0.02, half: 0.05, low: 0.68, 'below-outlet': 0.25 }
        : { full: 0.02, half: 0.03, low: 0.3, 'below-outlet': 0.65 };
  return chances[value] ?? SURPRISE;
}

/** Flow by bucket and watch or meter: likelihood at each flow of the grid, error in ln(flow). */
export function flowSeen(curves: Curves, lpm: number, share: number): Float64Array {
  const sd = Math.hypot(share, curves.step / 3.5);
  // Under about a tenth of a litre a minute nobody tells a trickle from nothing.
  const floor = 0.05;
  return curves.lpm.map((q) => density(Math.log(lpm + floor), Math.log(q + floor), sd) + 0.002);
}
