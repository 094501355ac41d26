/**
 * The normal distribution, for readings with errors.
 * Density and cumulative share; the latter by Abramowitz & Stegun 7.1.26 (|error| < 1.5e-7).
 */

const ROOT_2PI = Math.sqrt(2 * Math.PI);

export function density(x: number, mean: number, sd: number): number {
  const z = (x - mean) / sd;
  return Math.exp(-0.5 * z * z) / (sd * ROOT_2PI);
}

/** Share of a standard normal below z. */
export function below(z: number): number {
  if (z > 8) return 1;
  if (z < -8) return 0;
  const x = Math.abs(z) * Math.SQRT1_2;
  const t = 1 / (1 + 0.3275911 * x);
  const tail =
    t *
    (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429)))) *
    Math.exp(-x * x);
  return z >= 0 ? 1 - tail / 2 : tail / 2;
}

/** Density at x of a value spread evenly over [low, high] and read with an error. */
export function evenDensity(x: number, low: number, high: number, sd: number): number {
  if (high - low < 1e-6) return density(x, (low + high) / 2, sd);
  return (below((x - low) / sd) - below((x - high) / sd)) / (high - low);
}
