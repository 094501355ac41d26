const SEA_LEVEL_PA = 101_325;
const SEA_LEVEL_K = 288.15;
const LAPSE_K_M = 0.0065;
/** g0·M/(R*·L) with R* = 8.31432 J/(mol·K), M = 28.9644 g/mol. */
const EXPONENT = (9.80665 * 0.0289644) / (8.31432 * LAPSE_K_M);
const EARTH_RADIUS_M = 6_356_766;

/**
 * Air pressure at an altitude: p = p0 (1 − L·H/T0)^(g0 M / R* L), H = r·z/(r + z) the geopotential altitude.
 *
 * @param altitudeM geometric altitude above the sea, m; valid −5000 to 11 000, held at those ends beyond
 * @returns Pa, absolute
 * Source: U.S. Standard Atmosphere 1976 (troposphere; the same constants as ISO 2533).
 */
export function airPressurePa(altitudeM: number): number {
  const z = Math.min(11_000, Math.max(-5_000, altitudeM));
  return airPressureAtGeopotentialPa((EARTH_RADIUS_M * z) / (EARTH_RADIUS_M + z));
}

/** The same by geopotential altitude, as ISO 2533 tabulates it. */
export function airPressureAtGeopotentialPa(geopotentialM: number): number {
  return SEA_LEVEL_PA * (1 - (LAPSE_K_M * geopotentialM) / SEA_LEVEL_K) ** EXPONENT;
}
