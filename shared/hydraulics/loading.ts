import type { Resistance } from './cartridge.ts';
import { resistanceLossPa } from './cartridge.ts';
import { REFERENCE_TEMP_C, type Water, waterAt } from './water.ts';

/** What one reading says of a stage's state. */
export interface StageState {
  /** linear resistance over that of a clean stage; 1 is clean */
  readonly timesClean: number;
  readonly timesCleanU: number;
  /** drop that the stage would show at the reference flow and 20 °C, Pa */
  readonly referenceDropPa: number;
  readonly referenceDropU: number;
}

/** A stage loaded with dirt: the linear term grows, the housing's ports stay as they are. */
export function loaded(clean: Resistance, timesClean: number): Resistance {
  return { linear: clean.linear * timesClean, quadratic: clean.quadratic };
}

/**
 * State of a stage from one drop, told at a reference flow and 20 °C so that readings of different days and taps compare:
 * λ = (Δp − b·(ρ/ρ20)·Q²) / (a·(µ/µ20)·Q), Δp_ref = λ·a·Q_ref + b·Q_ref².
 * Uncertainties (standard) are carried through to first order (JCGM 100:2008, 5.1.2).
 *
 * @param drop measured drop and its standard uncertainty, Pa
 * @param flow flow at that moment and its standard uncertainty, m³/s; above zero
 * @returns times clean may come out under 1, or under 0 where the drop is smaller than the housing alone costs
 */
export function stageState(
  clean: Resistance,
  drop: { readonly pa: number; readonly u: number },
  flow: { readonly m3s: number; readonly u: number },
  water: Water,
  referenceFlowM3s: number,
): StageState {
  const linearPa = clean.linear * water.viscosityRatio * flow.m3s;
  const quadraticPa = clean.quadratic * water.densityRatio * flow.m3s * flow.m3s;
  const timesClean = (drop.pa - quadraticPa) / linearPa;
  const byDrop = 1 / linearPa;
  const byFlow = -(timesClean + (2 * quadraticPa) / linearPa) / flow.m3s;
  const timesCleanU = Math.hypot(byDrop * drop.u, byFlow * flow.u);
  const reference = waterAt(REFERENCE_TEMP_C);
  return {
    timesClean,
    timesCleanU,
    referenceDropPa: resistanceLossPa(loaded(clean, timesClean), referenceFlowM3s, reference),
    referenceDropU: timesCleanU * clean.linear * referenceFlowM3s,
  };
}
