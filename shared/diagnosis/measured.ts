import type { CycleTimes } from '../case/values.ts';
import type { Effect } from './effects.ts';
import type { Curves } from './flow-grid.ts';
import { below, density } from './normal.ts';
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

/** A charge counts as low from so far under cut-in, and as high above it (contract). */
const LOW_BAR = 0.5;

/** How well a tyre gauge tells a charge that is known, and one that the plant does not say (common practice). */
const CHARGE_SD = { known: 0.2, assumed: 0.35 };

/** A gas pressure as read: a gauge shows no less than nothing. */
const chargeDensity = (bar: number, mean: number, sd: number) =>
  density(bar, mean, sd) + density(bar, -mean, sd);

/**
 * Gas pressure in the vessel, pump off and line drained. A sound one lies between 0.5 bar under cut-in and cut-in. Behind
 * torn rubber no charge can stand: where no water comes out of it, it shows next to nothing.
 */
export function prechargeChance(
  value: { bar: number } | 'water-at-valve',
  assumed: boolean,
  source: Source,
  effects: readonly Effect[],
): number {
  if (value === 'water-at-valve') return source.waterlogged ? 0.9 : SURPRISE;
  if (source.waterlogged) return 0.1 * chargeDensity(value.bar, 0, CHARGE_SD.known) + SURPRISE;
  const faulty = effects.some((effect) => effect.change.prechargeBar !== undefined);
  const own = chargeDensity(
    value.bar,
    source.prechargeBar ?? 0,
    assumed ? CHARGE_SD.assumed : CHARGE_SD.known,
  );
  if (source.control !== 'pressure-switch') return own + SURPRISE;
  // Where cut-in is only assumed, so are the bounds of what counts as sound.
  const under = (bound: number) => below((value.bar - bound) / source.settingSd);
  const sound = under(source.lowBar - LOW_BAR) - under(source.lowBar);
  return (faulty ? 1 - sound : sound) * own + SURPRISE;
}

/** A timed cycle with all taps shut: the water goes to a leak, or nothing is lost and it should not cycle at all. */
export function closedCycleChance(cycle: CycleTimes, source: Source): number {
  const lpm = source.leakLpm + source.backLeakLpm;
  return cycleChance(cycle, source, lpm, lpm > 0 && !source.gives ? 1 : 0);
}

/** How a flow changed by the taking out of cartridges is told: ratios at which it is called better, and as good as clean. */
const BETTER = { times: 1.25, spread: 0.15 };
const RESTORED = { share: 0.8, spread: 0.15 };

/** Flow tried with some cartridges out: flows in L/min with them in, with them out, and of a clean plant. */
export function housingChance(
  result: string,
  beforeLpm: number,
  afterLpm: number,
  cleanLpm: number,
): number {
  const better = below(Math.log(afterLpm / beforeLpm / BETTER.times) / BETTER.spread);
  const restored = below(Math.log(afterLpm / cleanLpm / RESTORED.share) / RESTORED.spread);
  const chances: Record<string, number> = {
    restored: better * restored,
    better: better * (1 - restored),
    same: 1 - better,
  };
  return 0.02 + 0.94 * (chances[result] ?? 0);
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

/** Nobody tells a few drops from nothing: added to a flow before its logarithm is taken, L/min. */
const DROPS_LPM = 0.05;
/** Where no water reaches a tap, what stands in the pipes above may run out of it: by a factor e of the drops (common practice). */
const RUNS_OUT = 1;

/**
 * Flow by bucket and watch or meter: likelihood at each flow of the grid, error in ln(flow). Where nothing flows, one tap
 * in two gives nothing at all and the other what the pipes still hold.
 */
export function flowSeen(curves: Curves, lpm: number, share: number): Float64Array {
  const sd = Math.hypot(share, curves.step / 3.5);
  const seen = Math.log(lpm + DROPS_LPM);
  const at = (q: number, spread: number) => density(seen, Math.log(q + DROPS_LPM), spread);
  return curves.lpm.map((q) => (q === 0 ? 0.5 * at(0, sd) + at(0, RUNS_OUT) : at(q, sd)) + 0.002);
}

/** Something not listed stops the water in one case of four (common practice); else it leaves any flow of the grid. */
const NONE_LEFT = 0.25;

/** The likelihood of a flow under something not listed, from that at each flow of the grid. */
export function flowUnlisted(seen: Float64Array): number {
  const [none = 0, ...running] = seen;
  const any = running.reduce((sum, chance) => sum + chance, 0) / Math.max(1, running.length);
  return NONE_LEFT * none + (1 - NONE_LEFT) * any;
}
