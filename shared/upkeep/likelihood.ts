import type { Run } from './fit.ts';
import { type LoadingLaw, straightened, unstraightened } from './laws.ts';
import type { Point } from './resistance.ts';

/** Readings now and then are wrong by far: errors follow Student's t with so many degrees of freedom. */
const T_FREEDOM = 5;
/** How true the stated uncertainties are is itself learnt: factors and their prior weights. */
export type Scales = readonly (readonly [number, number])[];
export const SCALES: Scales = [
  [0.35, 0.2],
  [0.5, 0.33],
  [0.7, 0.27],
  [1, 0.12],
  [1.4, 0.05],
  [2, 0.03],
];
export const AS_STATED: Scales = [[1, 1]];

/** The points of a run as the likelihood of one law reads them, with room for their errors under one course. */
export interface Errors {
  /** how far each point is along the law's straight line: 0 at the run's beginning, 1 at its last day */
  readonly along: Float64Array;
  /** each point's error under the course, in its standard uncertainty */
  readonly own: Float64Array;
  /** what one standard uncertainty of the shared drop error adds to it */
  readonly shared: Float64Array;
}

export function errorsOf({ points, from }: Run, { power }: LoadingLaw, lastDay: number): Errors {
  const along = Float64Array.from(points, ({ day }) => ((day - from) / (lastDay - from)) ** power);
  return {
    along,
    own: new Float64Array(points.length),
    shared: new Float64Array(points.length),
  };
}

/**
 * Log likelihood of the points under a course. Two things are summed out: the scale of the uncertainties, and the drop
 * error that all points share, about its likeliest value under each scale (Laplace's method).
 * @param r0 resistance at the run's beginning, Pa/(m³/s); `r1` at its last day
 */
export function logLikelihood(
  { points, keptPa }: Pick<Run, 'points' | 'keptPa'>,
  exponent: number,
  r0: number,
  r1: number,
  scales: Scales,
  errors: Errors,
): number {
  const { along, own, shared } = errors;
  const g0 = straightened(exponent, r0);
  const grown = straightened(exponent, r1) - g0;
  let logU = 0;
  let [slope, curvature] = [0, 0];
  for (let i = 0; i < points.length; i++) {
    const point = points[i] as Point;
    const r = unstraightened(exponent, g0 + grown * (along[i] ?? 0));
    const byFlow = point.uByFlow * (r + point.housings);
    const u = Math.sqrt(point.uByDrop * point.uByDrop + byFlow * byFlow);
    const z = (point.resistance - r) / u;
    const perShared = (point.perPa * keptPa) / u;
    logU += Math.log(u);
    own[i] = z;
    shared[i] = perShared;
    // A reading far off does not speak of what all share.
    const weight = (T_FREEDOM + 1) / (T_FREEDOM + z * z);
    slope += weight * z * perShared;
    curvature += weight * perShared * perShared;
  }
  let total = 0;
  let best = Number.NEGATIVE_INFINITY;
  for (const [factor, prior] of scales) {
    const sharedError = -slope / (curvature + factor * factor);
    const log =
      Math.log(prior) +
      logOfScale(errors, points.length, sharedError, factor) -
      0.5 * sharedError * sharedError -
      0.5 * Math.log1p(curvature / (factor * factor));
    total = log > best ? total * Math.exp(best - log) + 1 : total + Math.exp(log - best);
    best = Math.max(best, log);
  }
  return best + Math.log(total) - logU;
}

/** Products of so many factors are turned into logs before they overflow. */
const LARGE = 1e200;

function logOfScale(
  { own, shared }: Errors,
  n: number,
  sharedError: number,
  factor: number,
): number {
  let [product, logs] = [1, 0];
  for (let i = 0; i < n; i++) {
    const z = ((own[i] ?? 0) + sharedError * (shared[i] ?? 0)) / factor;
    product *= 1 + (z * z) / T_FREEDOM;
    if (product > LARGE) {
      logs += Math.log(product);
      product = 1;
    }
  }
  return -0.5 * (T_FREEDOM + 1) * (logs + Math.log(product)) - n * Math.log(factor);
}
