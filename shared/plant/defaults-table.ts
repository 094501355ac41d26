import type { Medium, PumpControl } from './parts.ts';

/**
 * The one table of what is taken where a plant file leaves a value out: the middle value, and how far the real one may
 * lie from it. `line` takes the middle; `diagnose` takes the spread as a prior. Common practice where no source is named.
 */

/** How far the real value may lie from the middle, as an interval that holds it about 95 times in 100. */
export type Spread =
  | { readonly kind: 'factor'; readonly by: number }
  | { readonly kind: 'plusMinus'; readonly by: number }
  | { readonly kind: 'share'; readonly by: number }
  | { readonly kind: 'range'; readonly low: number; readonly high: number }
  | { readonly kind: 'none' };

export interface Default<T = number> {
  readonly value: T;
  readonly spread: Spread;
}

const none: Spread = { kind: 'none' };
const factor = (value: number, by: number): Default => ({ value, spread: { kind: 'factor', by } });
const plusMinus = (value: number, by: number): Default => ({
  value,
  spread: { kind: 'plusMinus', by },
});
const fixed = <T>(value: T): Default<T> => ({ value, spread: none });

const clean = (dropBar: number, linearShare: number) => ({
  flowLpm: fixed(20),
  dropBar: factor(dropBar, 2),
  linearShare: fixed(linearShare),
});

export const plantDefaults = {
  waterTempC: plusMinus(15, 5),
  altitudeM: { value: 0, spread: { kind: 'range', low: 0, high: 1500 } } as Default,
};

/** Height of any part but the house and the pump. */
export const heightDefault = fixed(0.5);

export const tankDefaults = {
  levelM: { value: 1.0, spread: { kind: 'range', low: 0.1, high: 2.2 } } as Default,
  outletHeightM: fixed(0.1),
  /** of a tank on a hill; our own estimate */
  uphillOutletHeightM: factor(18, 2.5),
};

export const suctionDefaults = {
  lengthM: factor(3, 1.5),
  boreMm: factor(32, 1.5),
  roughnessMm: factor(0.02, 1.5),
  fittingsK: factor(1.5, 1.5),
  strainer: fixed(false),
  footValve: fixed(false),
  /** added to fittingsK where it is left out */
  strainerK: 3,
  footValveK: 6,
};

export const pumpDefaults = {
  heightM: fixed(0.3),
  submersible: fixed(false),
  curve: fixed([
    { flowLpm: 0, headM: 45 },
    { flowLpm: 33, headM: 34 },
    { flowLpm: 60, headM: 12 },
  ]),
  /** the spread of a curve that was left out */
  curveHead: { kind: 'share', by: 0.15 } as Spread,
  curveFlow: { kind: 'share', by: 0.25 } as Spread,
};

export const controlDefaults = {
  /** where the control itself is left out: a vessel speaks for a switch, no vessel for a controller */
  kindWithVessel: 'pressure-switch' as PumpControl['kind'],
  kindWithoutVessel: 'flow-controller' as PumpControl['kind'],
  cutInBar: plusMinus(2.0, 0.3),
  cutOutBar: plusMinus(3.5, 0.3),
  /** no switch is set narrower: the pump would start every few seconds; our own estimate */
  leastGapBar: 0.5,
  startBar: plusMinus(1.5, 0.3),
  minFlowLpm: factor(1.5, 1.3),
  setBar: plusMinus(3.5, 0.3),
};

export const vesselDefaults = {
  volumeL: factor(24, 1.6),
  /** under the pressure at which the pump starts */
  prechargeUnderStartBar: 0.2,
  prechargeSpread: { kind: 'factor', by: 1.6 } as Spread,
};

export const filterDefaults: Record<Medium, { clean: ReturnType<typeof clean> }> = {
  sediment: { clean: clean(0.1, 0.7) },
  carbon: { clean: clean(0.25, 0.7) },
  membrane: { clean: clean(0.5, 0.7) },
  softener: { clean: clean(0.3, 0.5) },
};

export const uvDefaults = { clean: clean(0.03, 0.05) };

export const gaugeDefaults = {
  rangeBar: fixed(10),
  classPercent: fixed(2.5),
  /** the smallest division is the range divided by this */
  divisionsInRange: 50,
};

export const valveDefaults = { open: fixed(true) };
export const bypassDefaults = { open: fixed(false) };
export const reducerDefaults = { setBar: plusMinus(3.5, 0.3) };
/** A relief valve opens above what the plant ever reaches; common practice for small plants. */
export const reliefDefaults = { setBar: fixed(6) };
export const mainsDefaults = { changeover: fixed('manual' as const), pressureBar: plusMinus(3, 1) };

export const houseDefaults = {
  heightM: fixed(3),
  pipe: {
    lengthM: factor(25, 1.3),
    boreMm: factor(20, 1.3),
    roughnessMm: factor(0.02, 1.3),
    fittingsK: factor(8, 1.3),
  },
  tap: { flowLpm: factor(12, 1.3), atBar: fixed(3) },
  need: { open: fixed(2), shareOfTapFlow: 0.6 },
};
