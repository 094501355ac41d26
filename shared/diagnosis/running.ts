import type { CycleTimes } from '../case/values.ts';
import type { Curves } from './flow-grid.ts';
import { density } from './normal.ts';
import { openChance } from './pump-behaviour.ts';
import { cycleSeconds, type Source } from './source.ts';

/** What was heard, timed or measured at the pump while a tap ran; null where it was not. */
export interface Running {
  readonly heard: string | null;
  readonly motor: 'on' | 'off' | null;
  readonly cycle: CycleTimes | null;
  readonly vacuumBar: number | null;
}

/** Standard deviations of ln(seconds) when a cycle is timed by watch, and of a vacuum gauge (common practice). */
const OFF_SPREAD = 0.35;
const ON_SPREAD = 0.5;
const VACUUM_SD = 0.04;
const M_TO_BAR = 0.0979;
const SURPRISE = 0.02;

/** Chance of all that at flow j of the grid. `cleanLpm` is what a sound plant would pass. */
export function runningChance(
  { heard, motor, cycle, vacuumBar }: Running,
  source: Source,
  curves: Curves,
  cleanLpm: number,
  j: number,
): number {
  const lpm = curves.lpm[j] ?? 0;
  const cycles = source.cycling[j] ?? 0;
  let chance = 1;
  if (heard) chance *= openChance(source, j, heard, cleanLpm);
  if (motor) {
    const silent = source.gives === 'silent' ? 1 : source.gives ? 0.1 : 0.6 * cycles;
    chance *= 0.03 + 0.94 * (motor === 'off' ? silent : 1 - silent);
  }
  if (cycle) chance *= cycleChance(cycle, source, lpm, cycles);
  if (vacuumBar !== null) {
    const extra = source.suctionLossM * M_TO_BAR * (lpm / Math.max(1, curves.needLpm)) ** 2;
    // such a gauge ends at zero and at a full vacuum
    const inlet = Math.min(0, Math.max(-1, (curves.inletBar[j] ?? 0) - extra));
    chance *= density(vacuumBar, inlet, VACUUM_SD) + SURPRISE;
  }
  return chance;
}

/** Something not listed may be heard or timed as anything. */
export const unlistedRunning = ({ heard, motor, cycle }: Running): number =>
  (heard ? 0.15 : 1) * (motor ? 0.5 : 1) * (cycle ? 0.1 : 1);

/** Density in ln(rest) and ln(run) of a timed cycle while `lpm` is lost. */
export function cycleChance(
  { onS, offS }: CycleTimes,
  source: Source,
  lpm: number,
  cycles: number,
): number {
  const expected = cycleSeconds(source, Math.max(0.02, lpm));
  const off = density(Math.log(offS), Math.log(expected.offS), OFF_SPREAD);
  const on = density(Math.log(onS), Math.log(expected.onS), ON_SPREAD);
  return SURPRISE * SURPRISE + cycles * off * on;
}
