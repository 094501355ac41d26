/**
 * A pump's head curve, ready to be asked: either H = H0 − c·Qⁿ, or straight lines between points.
 * Flows in m³/s, heads in m of the water pumped (total differential head).
 */
export type HeadCurve =
  | {
      readonly kind: 'power';
      readonly shutOffM: number;
      readonly c: number;
      readonly n: number;
    }
  | {
      readonly kind: 'points';
      readonly flows: readonly number[];
      readonly heads: readonly number[];
    };

export interface CurvePoint {
  readonly flowM3s: number;
  readonly headM: number;
}

/**
 * Largest exponent taken from three points; a steeper one means that the first two heads are almost equal, and straight
 * lines say it better.
 */
const STEEPEST = 20;

/**
 * A head curve through the points known of it, from small to large flow, heads not rising:
 * one: H0 = 4/3·H1 and n = 2; two: n = 2 through both; three from zero flow: H0 − c·Qⁿ through all; else straight lines.
 */
export function headCurveOf(points: readonly CurvePoint[]): HeadCurve {
  const [first, second, third] = points;
  if (!first) return { kind: 'power', shutOffM: 0, c: 0, n: 2 };
  if (!second) {
    const c = first.headM / 3 / (first.flowM3s * first.flowM3s);
    return { kind: 'power', shutOffM: (4 / 3) * first.headM, c, n: 2 };
  }
  if (!third) {
    const gap = second.flowM3s ** 2 - first.flowM3s ** 2;
    const c = gap > 0 ? (first.headM - second.headM) / gap : 0;
    return { kind: 'power', shutOffM: first.headM + c * first.flowM3s ** 2, c, n: 2 };
  }
  if (points.length === 3 && first.flowM3s === 0) {
    const n =
      Math.log((first.headM - third.headM) / (first.headM - second.headM)) /
      Math.log(third.flowM3s / second.flowM3s);
    if (n > 0 && n <= STEEPEST) {
      const c = (first.headM - second.headM) / second.flowM3s ** n;
      return { kind: 'power', shutOffM: first.headM, c, n };
    }
  }
  return {
    kind: 'points',
    flows: points.map((point) => point.flowM3s),
    heads: points.map((point) => point.headM),
  };
}

/**
 * Head at a flow, m. Never negative; before the first point its first slope, past the last its last slope to zero.
 */
export function headM(curve: HeadCurve, flowM3s: number): number {
  if (curve.kind === 'power') {
    const { n } = curve;
    // The same as flowM3s ** n in half the time; at rest log gives −∞ and exp 0.
    const power = n === 2 ? flowM3s * flowM3s : Math.exp(n * Math.log(flowM3s));
    return Math.max(0, curve.shutOffM - curve.c * power);
  }
  return Math.max(0, alongPoints(curve.flows, curve.heads, flowM3s));
}

/** Straight lines through points, the end ones extended. */
function alongPoints(xs: readonly number[], ys: readonly number[], x: number): number {
  let i = 1;
  while (i < xs.length - 1 && x > (xs[i] ?? 0)) i++;
  const x0 = xs[i - 1] ?? 0;
  const y0 = ys[i - 1] ?? 0;
  const x1 = xs[i] ?? x0;
  const y1 = ys[i] ?? y0;
  return x1 > x0 ? y0 + ((y1 - y0) * (x - x0)) / (x1 - x0) : y0;
}

/** A curve that never falls gives any flow; this stands for it, m³/s. */
const ANY_FLOW_M3S = 1e6;

/**
 * Largest flow at which the curve still gives a head, m³/s: the inverse of `headM`. Below zero head counts as zero head,
 * above shut-off there is none.
 */
export function flowAtHeadM3s(curve: HeadCurve, head: number): number {
  const wanted = Math.max(0, head);
  if (curve.kind === 'power') {
    if (wanted > curve.shutOffM) return 0;
    const power = (curve.shutOffM - wanted) / curve.c;
    return Math.min(
      ANY_FLOW_M3S,
      curve.n === 2 ? Math.sqrt(power) : Math.exp(Math.log(power) / curve.n),
    );
  }
  const { flows, heads } = curve;
  let i = flows.length - 1;
  while (i > 1 && wanted > (heads[i - 1] ?? 0)) i--;
  const fall = (heads[i - 1] ?? 0) - (heads[i] ?? 0);
  const run = (flows[i] ?? 0) - (flows[i - 1] ?? 0);
  const flow = (flows[i - 1] ?? 0) + (((heads[i - 1] ?? 0) - wanted) * run) / fall;
  return fall > 0 ? Math.min(ANY_FLOW_M3S, Math.max(0, flow)) : ANY_FLOW_M3S;
}

/**
 * Head of a worn pump: wear lowers the head at every flow, and inner leakage shifts the curve to smaller flows.
 *
 * @param headFactor head over the new pump's, 0–1
 * @param flowFactor flow at a given share of shut-off head over the new pump's, above 0
 */
export function wornHeadM(
  curve: HeadCurve,
  flowM3s: number,
  headFactor: number,
  flowFactor: number,
): number {
  return headFactor * headM(curve, flowM3s / flowFactor);
}

/**
 * Affinity laws: a pump at another speed, H = s²·H(Q/s).
 * @param speed share of the speed that the curve is for, above 0
 */
export function headAtSpeedM(curve: HeadCurve, flowM3s: number, speed: number): number {
  return speed * speed * headM(curve, flowM3s / speed);
}

/** Flow, head and power at another speed: Q·s, H·s², P·s³. */
export function affinity<T extends { flow: number; head: number; power: number }>(
  duty: T,
  speed: number,
): { flow: number; head: number; power: number } {
  return {
    flow: duty.flow * speed,
    head: duty.head * speed ** 2,
    power: duty.power * speed ** 3,
  };
}

/**
 * Power at the shaft: P = ρ g Q H / η.
 * @returns W
 */
export function shaftPowerW(
  flowM3s: number,
  head: number,
  densityKgM3: number,
  efficiency: number,
): number {
  return (densityKgM3 * 9.80665 * flowM3s * head) / efficiency;
}
