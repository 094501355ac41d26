import type { Effect } from '../../shared/diagnosis/effects.ts';
import type { Curves, HouseCurve, PartCurve } from '../../shared/diagnosis/flow-grid.ts';
import type { GaugeError } from '../../shared/diagnosis/gauge-errors.ts';
import type { Source } from '../../shared/diagnosis/source.ts';

/** A line of few flows and round figures, so that what is made of it can be followed by hand. */
export const LPM = [0, 1, 2, 4, 8, 16];
export const along = (bar: (lpm: number) => number): Float64Array => Float64Array.from(LPM, bar);

export const curvesWith = (differs: Partial<Curves> = {}): Curves => ({
  lpm: Float64Array.from(LPM),
  step: Math.LN2,
  datumM: 0,
  source: along((q) => 5 - 0.25 * q),
  sourceSd: along((q) => 0.1 + 0.01 * q),
  gravityBar: 0.3,
  inletBar: along((q) => 0.1 - 0.01 * q),
  needLpm: 10,
  parts: [],
  reducers: [],
  ...differs,
});

export const part = (differs: Partial<PartCurve> = {}): PartCurve => ({
  lossBar: along((q) => 0.02 * q + 0.001 * q * q),
  linearBar: along((q) => 0.02 * q),
  spread: 0.15,
  loads: false,
  ...differs,
});

export const house: HouseCurve = {
  pipeBar: along((q) => 0.004 * q * q),
  tapBar: along((q) => 0.02 * q * q),
  staticBar: 0.4,
  sizeSd: 0.2,
  pipeSpread: 0.1,
};

let id = 0;
export const effect = (differs: Partial<Effect> = {}): Effect => ({
  ...{ id: id++, weight: 1, spread: 0, change: {}, sourceLoss: null, at: -1, partLoss: null },
  ...{ pipeTimes: 1, outletLn: 0, atPressure: false, atSource: false },
  ...{ atReducer: false, gauge: null },
  ...differs,
});

/** A pump under a switch that neither leaks nor cycles. */
export const sourceWith = (differs: Partial<Source> = {}): Source => ({
  ...{ lpm: Float64Array.from(LPM), raw: along((q) => 5 - 0.25 * q), sd: along(() => 0.1) },
  ...{ cycling: along(() => 0), control: 'pressure-switch', lowBar: 2, highBar: 3.5 },
  ...{ settingSd: 0.05, minFlowLpm: 0, gives: null, neverStops: false, drawdownL: 8 },
  ...{ givesLpm: 9, prechargeBar: 1.8, waterlogged: false, leakLpm: 0, backLeakLpm: 0 },
  suctionLossM: 0,
  ...differs,
});

export const gauge = (at: number, differs: Partial<GaugeError> = {}): GaugeError => ({
  ...{ id: `G${at}`, at, zone: 0, rangeBar: 10, heightM: 0, permittedBar: 0.16 },
  ...{ offsetBar: 0.06, gain: 0.005, readingBar: 0.05 },
  ...differs,
});

/** ∫ f over [from, to] by the trapezoid rule. */
export function integral(f: (x: number) => number, from: number, to: number): number {
  const steps = 20_000;
  const width = (to - from) / steps;
  let sum = (f(from) + f(to)) / 2;
  for (let i = 1; i < steps; i++) sum += f(from + i * width);
  return sum * width;
}
