import { controlDefaults, vesselDefaults } from './defaults-table.ts';
import type { PumpControl } from './parts.ts';
import type { ResolvedControl } from './resolved.ts';
import type { Plant } from './schema.ts';

/** Takes a given value, or the middle one and writes it down as assumed. */
export type Take = <T>(field: string, given: T | undefined, middle: T) => T;

/** The plant's control as given or, where it is left out, of the kind that its vessel (or none) speaks for. */
export function controlOf(plant: Plant): PumpControl | null {
  const pump = plant.line.find((part) => part.kind === 'pump');
  if (!pump) return null;
  if (pump.control) return pump.control;
  const hasVessel = plant.line.some((part) => part.kind === 'vessel');
  const { kindWithVessel, kindWithoutVessel } = controlDefaults;
  return { kind: hasVessel ? kindWithVessel : kindWithoutVessel };
}

export function resolveControl(
  given: PumpControl | undefined,
  control: PumpControl | null,
  take: Take,
): ResolvedControl {
  const known: PumpControl = control ?? { kind: 'none' };
  if (!given) take('control.kind', undefined, known.kind);
  const middle = controlDefaults;
  switch (known.kind) {
    case 'pressure-switch': {
      const { cutInBar, cutOutBar } = switchMiddle(known.cutInBar, known.cutOutBar);
      return {
        kind: known.kind,
        cutInBar: take('control.cutInBar', known.cutInBar, cutInBar),
        cutOutBar: take('control.cutOutBar', known.cutOutBar, cutOutBar),
      };
    }
    case 'flow-controller':
      return {
        kind: known.kind,
        startBar: take('control.startBar', known.startBar, middle.startBar.value),
        minFlowLpm: take('control.minFlowLpm', known.minFlowLpm, middle.minFlowLpm.value),
      };
    case 'variable-speed':
      return {
        kind: known.kind,
        setBar: take('control.setBar', known.setBar, middle.setBar.value),
      };
    case 'none':
      return known;
  }
}

/**
 * Middle cut-in and cut-out. The middle of one stands as far as the other, where that is given, leaves room for it: it
 * moves no further than that, so that a usual pump still reaches the cut-out.
 */
function switchMiddle(givenIn: number | undefined, givenOut: number | undefined) {
  const { cutInBar, cutOutBar, leastGapBar } = controlDefaults;
  const under = (outBar: number) => Math.max(outBar - leastGapBar, outBar / 2);
  return {
    cutInBar: roundTo(Math.min(cutInBar.value, under(givenOut ?? cutOutBar.value)), 6),
    cutOutBar: roundTo(Math.max(cutOutBar.value, (givenIn ?? cutInBar.value) + leastGapBar), 6),
  };
}

export function middlePrecharge(control: PumpControl | null): number {
  const middle = controlDefaults;
  let startBar = middle.cutInBar.value;
  if (control?.kind === 'pressure-switch') {
    startBar = control.cutInBar ?? switchMiddle(undefined, control.cutOutBar).cutInBar;
  }
  if (control?.kind === 'flow-controller') startBar = control.startBar ?? middle.startBar.value;
  return Math.max(0, roundTo(startBar - vesselDefaults.prechargeUnderStartBar, 6));
}

/** Keeps sums of decimal fractions readable: 2.0 − 0.2 is 1.8. */
export function roundTo(value: number, digits: number): number {
  return Number(value.toFixed(digits));
}
