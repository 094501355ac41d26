/** A pressure vessel as its gas sees it. Pressures are gauge pressures, Pa; the gas laws are taken in absolute ones. */
export interface Vessel {
  readonly volumeM3: number;
  readonly prechargePa: number;
}

/**
 * Water in a vessel at a pressure (Boyle, isothermal): V·(1 − (p₀ + pₐ)/(p + pₐ)); none below the precharge.
 * @returns m³
 */
export function waterInVesselM3(vessel: Vessel, pressurePa: number, airPa: number): number {
  if (pressurePa <= vessel.prechargePa) return 0;
  return vessel.volumeM3 * (1 - (vessel.prechargePa + airPa) / (pressurePa + airPa));
}

/**
 * Water that a vessel gives between two pressures:
 * V·[(p₀ + pₐ)/(p_low + pₐ) − (p₀ + pₐ)/(p_high + pₐ)]; where the precharge is above the low pressure, only what lies above it.
 * @returns m³
 */
export function drawdownM3(vessel: Vessel, lowPa: number, highPa: number, airPa: number): number {
  return waterInVesselM3(vessel, highPa, airPa) - waterInVesselM3(vessel, lowPa, airPa);
}

/** How long the pump runs and rests in one cycle. */
export interface RunAndRest {
  readonly onS: number;
  readonly offS: number;
}

/**
 * Run and rest of a cycle: rest = D/q, run = D/(Q − q).
 *
 * @param drawdown water given between stop and start pressure, m³
 * @param pumpM3s what the pump gives between them, m³/s
 * @param drawM3s what is drawn, m³/s; above zero and under `pumpM3s`
 */
export function runAndRest(drawdown: number, pumpM3s: number, drawM3s: number): RunAndRest {
  return { onS: drawdown / (pumpM3s - drawM3s), offS: drawdown / drawM3s };
}

/** Starts in an hour of a cycle. */
export function startsPerHour({ onS, offS }: RunAndRest): number {
  return 3600 / (onS + offS);
}

/**
 * The shortest cycle that any draw-off can bring, at half of what the pump gives: 4·D/Q, in s.
 * Source: the factor 15 = 60/4 of Washington State DOH, Water System Design Manual (2009), Eq. 11-1.
 */
export function shortestCycleS(drawdown: number, pumpM3s: number): number {
  return (4 * drawdown) / pumpM3s;
}

/**
 * Starts that small motors bear: 15 an hour up to ¾ hp, 7.5 above, and under 300 a day.
 * Source: the water-systems industry's standard for pressurised tanks, as reproduced in 2008.
 */
export function mostStartsPerHour(motorW: number): number {
  return motorW <= 0.75 * 745.7 ? 15 : 7.5;
}

/**
 * Drawdown that measured run and rest times explain, m³: D = q·rest, with q = Q·run/(run + rest) where the draw is not known.
 *
 * @param pumpM3s what the pump gives between the pressures, m³/s
 */
export function drawdownFromTimes(times: RunAndRest, pumpM3s: number): number {
  return (pumpM3s * times.onS * times.offS) / (times.onS + times.offS);
}

/** The gas that a drawdown tells of. Null where no charge of this vessel would explain it. */
export interface GasFound {
  /** gas volume at the start pressure, m³ */
  readonly gasAtStartM3: number;
  /** the precharge, Pa, if it lies under the start pressure (gas was lost) */
  readonly prechargeUnderPa: number | null;
  /** the precharge, Pa, if it lies above it (too much gas: part of the vessel never fills) */
  readonly prechargeOverPa: number | null;
}

/**
 * The gas that is really there, from the water given between start and stop pressure (the inverse of `drawdownM3`).
 * A small drawdown has two explanations, too little gas and too much: only the precharge test tells them apart.
 *
 * @param drawdown m³, not negative
 */
export function gasFromDrawdown(
  drawdown: number,
  volumeM3: number,
  lowPa: number,
  highPa: number,
  airPa: number,
): GasFound {
  const low = lowPa + airPa;
  const high = highPa + airPa;
  const gasAtStartM3 = drawdown / (1 - low / high);
  const under = (gasAtStartM3 * low) / volumeM3 - airPa;
  const over = (1 - drawdown / volumeM3) * high - airPa;
  return {
    gasAtStartM3,
    prechargeUnderPa: under >= 0 && under <= lowPa ? under : null,
    prechargeOverPa: over > lowPa ? over : null,
  };
}
