/** Stops when the bracket is this small relative to its size, or what is left this small of what there was. */
const RELATIVE = 1e-10;
const MOST_STEPS = 100;
/**
 * Where so little of a surplus is left, one step more needs no look: a straight line in the square of the flow is then
 * off by less than a hundred-millionth of the surplus, and at a kink of the line by no more than this share, a few pascal.
 */
const NEAR = 1e-5;

/**
 * Root of a function that falls (or stays level) from `low` to `high`. Always ends and never leaves the bracket, whatever
 * the function does: Chandrupatla's method (inverse quadratic steps where they are safe, else bisection).
 *
 * @param fLow f(low), where known already; `fHigh` likewise
 * @returns `low` where f(low) ≤ 0, `high` where f(high) ≥ 0, else the root
 * Source: T. R. Chandrupatla, Advances in Engineering Software 28, 145–149 (1997).
 */
export function fallingRoot(
  f: (x: number) => number,
  low: number,
  high: number,
  fLow: number = f(low),
  fHigh: number = f(high),
): number {
  if (!(fLow > 0) || !(high > low)) return low;
  if (fHigh >= 0) return high;
  const small = RELATIVE * fLow;
  let a = high;
  let b = low;
  let fa = fHigh;
  let fb = fLow;
  let t = fHigh / (fHigh - fLow);
  for (let step = 0; step < MOST_STEPS; step++) {
    const x = a + t * (b - a);
    const fx = f(x);
    if (Number.isNaN(fx)) return x;
    let c = b;
    let fc = fb;
    if (fx > 0 === fa > 0) {
      c = a;
      fc = fa;
    } else {
      b = a;
      fb = fa;
    }
    a = x;
    fa = fx;
    const best = Math.abs(fa) < Math.abs(fb) ? a : b;
    const least = (2 * RELATIVE * Math.abs(best) + 1e-18) / Math.abs(b - a);
    if (least > 0.5 || Math.abs(fx) <= small) return best;
    t = Math.min(1 - least, Math.max(least, nextShare(a, b, c, fa, fb, fc)));
  }
  return Math.abs(fa) < Math.abs(fb) ? a : b;
}

/** How far from a to b to look next: inverse quadratic interpolation where it can be trusted, else the middle. */
function nextShare(a: number, b: number, c: number, fa: number, fb: number, fc: number): number {
  const xi = (a - b) / (c - b);
  const phi = (fa - fb) / (fc - fb);
  if (phi * phi < xi && (1 - phi) * (1 - phi) < 1 - xi) {
    return (
      (fa / (fb - fa)) * (fc / (fb - fc)) +
      ((c - a) / (b - a)) * (fa / (fc - fa)) * (fb / (fc - fb))
    );
  }
  return 0.5;
}

/**
 * Flow at which a pressure surplus is used up: `fallingRoot` for a surplus that falls nearly with the square of the flow,
 * from a good guess. Mostly three looks at the function in place of seven; where the guess is no good, `fallingRoot`.
 *
 * @param most a flow at which nothing can be left
 * @param atRest surplus at no flow, above zero
 * @param guess a flow near the root
 */
export function flowWhereSpent(
  surplus: (flow: number) => number,
  most: number,
  atRest: number,
  guess: number,
): number {
  const near = NEAR * atRest;
  let low = 0;
  let fLow = atRest;
  let high = most;
  let fHigh = Number.NaN;
  let x = guess;
  let before = 0;
  let fBefore = atRest;
  for (let step = 0; step < 8 && x > low && x < high; step++) {
    const fx = surplus(x);
    if (fx > 0) {
      low = x;
      fLow = fx;
    } else {
      high = x;
      fHigh = fx;
    }
    // A straight line in the square of the flow through the last two looks.
    const square = x * x + (fx * (x * x - before * before)) / (fBefore - fx);
    before = x;
    fBefore = fx;
    x = Math.sqrt(square);
    if (Math.abs(fx) <= near && x > low && x < high) return x;
  }
  return Number.isNaN(fHigh)
    ? fallingRoot(surplus, low, high, fLow)
    : fallingRoot(surplus, low, high, fLow, fHigh);
}
