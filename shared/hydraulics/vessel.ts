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
