/** Stops when the bracket is this small relative to its size; far below any gauge. */
const RELATIVE = 1e-9;
const MOST_STEPS = 100;

/**
 * Root of a function that falls (or stays level) from `low` to `high`. Always ends and never leaves the bracket, whatever
 * the function does: Chandrupatla's method (inverse quadratic steps where they are safe, else bisection).
 *
 * @param fLow f(low), where known already
 * @returns `low` where f(low) ≤ 0, `high` where f(high) ≥ 0, else the root
 * Source: T. R. Chandrupatla, Advances in Engineering Software 28, 145–149 (1997).
 */
export function fallingRoot(
  f: (x: number) => number,
  low: number,
  high: number,
  fLow: number = f(low),
): number {
  if (!(fLow > 0) || !(high > low)) return low;
  const fHigh = f(high);
  if (fHigh >= 0) return high;
  let a = high;
  let b = low;
  let fa = fHigh;
  let fb = fLow;
  let c = a;
  let fc = fa;
  // First try: where it would be if it fell with the square, as losses nearly do.
  let t = 1 - Math.sqrt(fLow / (fLow - fHigh));
  for (let step = 0; step < MOST_STEPS; step++) {
    const x = a + t * (b - a);
    const fx = f(x);
    if (Number.isNaN(fx)) return x;
    if (fx > 0 === fa > 0) {
      c = a;
      fc = fa;
    } else {
      c = b;
      fc = fb;
      b = a;
      fb = fa;
    }
    a = x;
    fa = fx;
    const best = Math.abs(fa) < Math.abs(fb) ? a : b;
    const width = Math.abs(b - a);
    const least = (2 * RELATIVE * Math.abs(best) + 1e-18) / width;
    if (fx === 0 || least > 0.5) return best;
    const xi = (a - b) / (c - b);
    const phi = (fa - fb) / (fc - fb);
    if (phi * phi < xi && (1 - phi) * (1 - phi) < 1 - xi) {
      t =
        (fa / (fb - fa)) * (fc / (fb - fc)) +
        ((c - a) / (b - a)) * (fa / (fc - fa)) * (fb / (fc - fb));
    } else {
      t = 0.5;
    }
    if (t < least) t = least;
    else if (t > 1 - least) t = 1 - least;
    else if (Number.isNaN(t)) t = 0.5;
  }
  return Math.abs(fa) < Math.abs(fb) ? a : b;
}
