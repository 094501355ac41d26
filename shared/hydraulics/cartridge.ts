import type { Water } from './water.ts';
import { densityKgM3 } from './water.ts';

/**
 * What a stage costs, as two coefficients at 20 °C: Δp = linear·(µ/µ20)·Q + quadratic·(ρ/ρ20)·Q² (Darcy–Forchheimer).
 * Dirt that loads a cartridge multiplies the linear term only; the quadratic one is the housing's ports.
 */
export interface Resistance {
  /** Pa/(m³/s) */
  readonly linear: number;
  /** Pa/(m³/s)² */
  readonly quadratic: number;
}

/**
 * Both coefficients from one point of a data sheet (taken as measured at 20 °C).
 *
 * @param linearShare part of that drop which grows linearly with flow, 0–1
 */
export function resistanceFrom(flowM3s: number, dropPa: number, linearShare: number): Resistance {
  return {
    linear: (linearShare * dropPa) / flowM3s,
    quadratic: ((1 - linearShare) * dropPa) / (flowM3s * flowM3s),
  };
}

const DENSITY_20C_KGM3 = densityKgM3(20);

/** Resistance of a fitting with loss coefficient K on a bore, as a quadratic term at 20 °C. */
export function resistanceOfFitting(k: number, boreM: number): Resistance {
  const areaM2 = (Math.PI / 4) * boreM * boreM;
  return { linear: 0, quadratic: (k * DENSITY_20C_KGM3) / (2 * areaM2 * areaM2) };
}

/** Pressure lost in a stage, Pa, at a flow in m³/s. */
export function resistanceLossPa(r: Resistance, flowM3s: number, water: Water): number {
  return (
    r.linear * water.viscosityRatio * flowM3s + r.quadratic * water.densityRatio * flowM3s * flowM3s
  );
}
