/**
 * The classic blocking laws at a household's even use: resistance grows as dR/dt = k·Rⁿ. With steady flow the exponent
 * is 0 for a cake on the surface, 1 for intermediate, 3/2 for standard (inside the pores) and 2 for complete blocking;
 * 1/2 stands for a cake over pores that narrow. Two more go with a power of time: dirt that comes ever slower, and a filter
 * that ripens (these three are our own, beside the classic ones).
 * Source: J. Hermia, Trans. IChemE 60, 183 (1982), for constant pressure; E. Hlavacek & F. Bouchet, J. Membrane Sci. 82,
 * 285 (1993), for constant flow.
 */
export interface LoadingLaw {
  readonly id:
    | 'cake'
    | 'mixed'
    | 'intermediate'
    | 'standard'
    | 'complete'
    | 'slowing'
    | 'ripening'
    | 'straight';
  /**
   * weight before any reading: the classic laws go first; what lies between two of them has less, for they stand for it
   * too (our own choice)
   */
  readonly prior: number;
  readonly exponent: number;
  /** the time since clean enters with this power; 1 for the laws themselves */
  readonly power: number;
  /** what a clean cartridge costs is used; `straight` is the floor: a plain line through the points, wherever it begins */
  readonly fromClean: boolean;
}

const law = (
  id: LoadingLaw['id'],
  prior: number,
  exponent: number,
  power = 1,
  fromClean = true,
): LoadingLaw => ({ id, prior, exponent, power, fromClean });

export const loadingLaws: readonly LoadingLaw[] = [
  law('cake', 1, 0),
  law('mixed', 0.1, 0.5),
  law('intermediate', 1, 1),
  law('standard', 0.5, 1.5),
  law('complete', 1, 2),
  law('slowing', 0.1, 0, 0.75),
  law('ripening', 0.1, 0, 2),
  law('straight', 0.1, 0, 1, false),
];

/** The scale on which a law is a straight line in time: R^(1−n)/(1−n), ln R where n = 1. Rises with R. */
export function straightened(exponent: number, resistance: number): number {
  if (exponent === 0) return resistance;
  if (exponent === 1) return Math.log(resistance);
  return resistance ** (1 - exponent) / (1 - exponent);
}

/** Back from the straight scale; Infinity past the point where the pores are shut. */
export function unstraightened(exponent: number, value: number): number {
  if (exponent === 0) return value;
  if (exponent === 1) return Math.exp(value);
  const power = value * (1 - exponent);
  if (!(power > 0)) return Number.POSITIVE_INFINITY;
  // the classic laws by hand: a general power takes far longer, and a fit asks for thousands of them
  if (exponent === 2) return 1 / power;
  if (exponent === 1.5) return 1 / (power * power);
  if (exponent === 0.5) return power * power;
  return power ** (1 / (1 - exponent));
}

/** A law through two points in time: resistance `r0` at day `t0`, `r1` at day `t1`; both above `still`. */
export interface Course {
  /** the part of it that does not load: clean filters beside the one that does */
  readonly still: number;
  readonly exponent: number;
  readonly power: number;
  readonly t0: number;
  readonly r0: number;
  readonly t1: number;
  readonly r1: number;
}

/** Resistance on a day; Infinity once shut, never under 0. Before its beginning a course is as it began. */
export function resistanceOn(course: Course, day: number): number {
  const { exponent, power, still, t0, r0, t1, r1 } = course;
  const x = (day - t0) / (t1 - t0);
  if (x < 0 && power !== 1) return r0;
  const g0 = straightened(exponent, r0 - still);
  const value = g0 + (straightened(exponent, r1 - still) - g0) * (power === 1 ? x : x ** power);
  return Math.max(0, still + unstraightened(exponent, value));
}

/** Day on which a course reaches a resistance; Infinity where it never does, for it does not grow. */
export function dayReached(course: Course, resistance: number): number {
  const { exponent, power, still, t0, r0, t1, r1 } = course;
  const g0 = straightened(exponent, r0 - still);
  const grown = straightened(exponent, r1 - still) - g0;
  if (!(grown > 0)) return Number.POSITIVE_INFINITY;
  if (!(resistance > still) && exponent > 0) return t0;
  const x = (straightened(exponent, resistance - still) - g0) / grown;
  return t0 + (t1 - t0) * (x > 0 && power !== 1 ? x ** (1 / power) : x);
}
