/**
 * The line solved as a whole. `lineOf` makes the clean line of a plant, `solveLine` says who runs, what flows and which
 * pressure stands where; the rest are the pieces that it is made of, for asking about one stretch of it.
 */
export { housePressureForPa, outletFlow } from './line/house.ts';
export { lossBetweenPa } from './line/losses.ts';
export { lineOf } from './line/model.ts';
export { solveLine } from './line/solve.ts';
export { pumpFlowAtM3s, pumpInletPa, pumpOutletPa } from './line/source.ts';
export type * from './line/types.ts';
