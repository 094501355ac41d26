import { GRAVITY_M_S2 } from './units.ts';
import type { Water } from './water.ts';

/**
 * Net positive suction head available: (pₐ − pᵥ)/ρg + z − h_f.
 *
 * @param airPa absolute air pressure on the water, Pa
 * @param levelAboveM water surface above the pump's inlet, m; negative is a lift
 * @param lossPa pressure lost between tank and pump, Pa
 * @returns m of water
 */
export function npshAvailableM(
  airPa: number,
  levelAboveM: number,
  lossPa: number,
  water: Water,
): number {
  return (airPa - water.vapourPa - lossPa) / (water.densityKgM3 * GRAVITY_M_S2) + levelAboveM;
}

/**
 * Largest lift at which a pump still has what it needs: (pₐ − pᵥ)/ρg − h_f − NPSHr.
 * @returns m; negative where it must be flooded
 */
export function suctionLiftLimitM(
  airPa: number,
  lossPa: number,
  npshRequiredM: number,
  water: Water,
): number {
  return npshAvailableM(airPa, 0, lossPa, water) - npshRequiredM;
}

/** Head lost at a margin of zero: the required head is by definition that at which 3 % is gone (ISO 9906). */
const LOST_AT_ZERO_MARGIN = 0.03;
/** How fast the head goes past the limit, per metre: half is gone about 0.8 m below it (our own choice, to be smooth). */
const STEEPNESS_PER_M = 4.5;

/** From here on less than 1e-13 of the head is lost. */
const AMPLE_M = 6;

/**
 * Share of its head that a pump keeps as the suction head runs out: a smooth fall from one to nothing, 0.97 where
 * available equals required. Falls with falling margin, so an operating point stays unique.
 *
 * @param marginM NPSH available − required, m
 */
export function headKept(marginM: number): number {
  if (marginM > AMPLE_M) return 1;
  const odds = LOST_AT_ZERO_MARGIN / (1 - LOST_AT_ZERO_MARGIN);
  return 1 / (1 + odds * Math.exp(-STEEPNESS_PER_M * marginM));
}
