import type { Water } from './water.ts';

/** Laminar flow ends here and turbulent flow is established there; between them the loss is blended. */
const LAMINAR_RE = 2000;
const TURBULENT_RE = 4000;

/** A pipe run with everything worked out that does not depend on the flow. */
export interface Pipe {
  readonly lengthM: number;
  readonly boreM: number;
  readonly areaM2: number;
  /** roughness over bore */
  readonly relativeRoughness: number;
  /** sum of the loss coefficients of its fittings */
  readonly fittingsK: number;
  /** f·Re² at the beginning of turbulent flow, and its slope by Re: the blend must meet both */
  readonly turbulentLoad: number;
  readonly turbulentSlope: number;
}

/** @param roughnessM height of the wall's roughness, m; taken as at most 5 % of the bore (the range of the friction law) */
export function pipeOf(
  lengthM: number,
  boreM: number,
  roughnessM: number,
  fittingsK: number,
): Pipe {
  const relativeRoughness = Math.min(0.05, roughnessM / boreM);
  const f = colebrookFriction(TURBULENT_RE, relativeRoughness);
  return {
    lengthM,
    boreM,
    areaM2: (Math.PI / 4) * boreM * boreM,
    relativeRoughness,
    fittingsK,
    turbulentLoad: f * TURBULENT_RE * TURBULENT_RE,
    turbulentSlope: turbulentSlope(f, relativeRoughness),
  };
}

/**
 * Darcy friction factor of turbulent flow: 1/√f = −2 log10(ε/3.7D + 2.51/(Re √f)), solved by one step of Halley's method
 * from a first guess with 1/√f = 6 inside the logarithm: within 5e−6 of the exact f.
 *
 * @param re Reynolds number, 4000 to 1e8
 * @param relativeRoughness ε/D, 0 to 0.05
 * @returns Darcy friction factor, dimensionless
 * Source: C. F. Colebrook, J. Inst. Civ. Eng. 11, 133 (1939).
 */
export function colebrookFriction(re: number, relativeRoughness: number): number {
  const rough = relativeRoughness / 3.7;
  const smooth = 2.51 / re;
  const guess = PER_LN * Math.log(rough + 6 * smooth);
  const inside = rough + smooth * guess;
  const ratio = smooth / inside;
  const off = guess - PER_LN * Math.log(inside);
  const slope = 1 - PER_LN * ratio;
  const bend = PER_LN * ratio * ratio;
  const x = guess - (2 * off * slope) / (2 * slope * slope - off * bend);
  return 1 / (x * x);
}

/** −2 log10(y) = PER_LN·ln(y). */
const PER_LN = -2 / Math.LN10;

/** d(f·Re²)/dRe at the beginning of turbulent flow, by differentiating Colebrook's equation. */
function turbulentSlope(f: number, relativeRoughness: number): number {
  const re = TURBULENT_RE;
  const x = 1 / Math.sqrt(f);
  const smooth = 2.51 / re;
  const inside = relativeRoughness / 3.7 + smooth * x;
  const dxdRe = (-PER_LN * smooth * x) / (re * inside) / (1 - (PER_LN * smooth) / inside);
  return 2 * f * re - (2 * f * dxdRe * re * re) / x;
}

/**
 * f·Re² of a pipe: 64·Re where laminar, Colebrook's where turbulent, and between them a cubic that meets both in value
 * and slope. It rises with Re everywhere, so the loss never falls when the flow rises, and it has no step or kink.
 */
export function frictionLoad(pipe: Pipe, re: number): number {
  if (re <= LAMINAR_RE) return 64 * re;
  if (re >= TURBULENT_RE) return colebrookFriction(re, pipe.relativeRoughness) * re * re;
  const width = TURBULENT_RE - LAMINAR_RE;
  const t = (re - LAMINAR_RE) / width;
  const s = 1 - t;
  return (
    s * s * (1 + 2 * t) * (64 * LAMINAR_RE) +
    t * t * (3 - 2 * t) * pipe.turbulentLoad +
    t * s * width * (s * 64 - t * pipe.turbulentSlope)
  );
}

/**
 * Darcy friction factor at a Reynolds number, laminar to turbulent.
 * @returns dimensionless; infinite at rest
 */
export function frictionFactor(re: number, relativeRoughness: number): number {
  return frictionLoad(pipeOf(1, 1, relativeRoughness, 0), re) / (re * re);
}

/** Re = ρ v D / µ for a flow through a bore. */
export function reynolds(flowM3s: number, boreM: number, water: Water): number {
  return (4 * flowM3s * water.densityKgM3) / (Math.PI * boreM * water.viscosityPaS);
}

/**
 * Pressure lost in a pipe and its fittings: Δp = (f·L/D + ΣK)·ρv²/2 (Darcy–Weisbach).
 * Written with f·Re², so that it is zero and not undefined at rest: friction = f·Re²·µ²·L/(2ρD³).
 *
 * @param flowM3s m³/s, not negative
 * @returns Pa; zero at no flow, rising with flow
 */
export function pipeLossPa(pipe: Pipe, flowM3s: number, water: Water): number {
  if (!(flowM3s > 0)) return 0;
  const { boreM, areaM2 } = pipe;
  const mu = water.viscosityPaS;
  const rho = water.densityKgM3;
  const velocity = flowM3s / areaM2;
  const re = (rho * velocity * boreM) / mu;
  const friction =
    (frictionLoad(pipe, re) * mu * mu * pipe.lengthM) / (2 * rho * boreM * boreM * boreM);
  return friction + 0.5 * pipe.fittingsK * rho * velocity * velocity;
}

/**
 * Pressure lost in a fitting: Δp = K·ρv²/2.
 * @param k loss coefficient on the velocity given
 * @returns Pa
 */
export function fittingLossPa(k: number, velocityMs: number, densityKgM3: number): number {
  return 0.5 * k * densityKgM3 * velocityMs * velocityMs;
}
