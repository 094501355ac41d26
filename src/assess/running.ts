import type { Line, OpenTaps, Solution } from '../../shared/hydraulics/line/types.ts';
import { pumpOutletPa, solveLine } from '../../shared/hydraulics/line.ts';
import { m3sToLpm } from '../../shared/hydraulics/units.ts';
import { drawdownM3 } from '../../shared/hydraulics/vessel.ts';
import type { Condition } from './condition.ts';

/** One ordinary tap open, as it really runs; through the weak outlet where that is the one tried. */
export function oneTap(condition: Condition, weakOutlet: boolean): Solution {
  return solveLine(lineWithTap(condition, weakOutlet), taps(condition, 1));
}

export function lineWithTap({ line, outletTimes }: Condition, weakOutlet: boolean): Line {
  if (!weakOutlet) return line;
  const { tap } = line.house;
  return { ...line, house: { ...line.house, tap: { ...tap, kFactor: tap.kFactor * outletTimes } } };
}

/** So many taps opened on purpose, and those nobody counts. */
export const taps = ({ hiddenTaps }: Condition, open: number): OpenTaps => ({
  open: open + hiddenTaps,
});

/** What the one tap that is tried passes of all the water drawn, L/min. */
export function tapLpm(condition: Condition, weakOutlet: boolean): number {
  const { house } = lineWithTap(condition, weakOutlet);
  const own = house.tap.k * house.tap.kFactor;
  const all = own * (1 + condition.hiddenTaps) + house.leakK;
  return (lpmOf(oneTap(condition, weakOutlet)) * own) / all;
}

export const lpmOf = (solution: Solution): number => m3sToLpm(solution.flowM3s);

/** Litres that vessel, hoses and pipes give between two pressures; 0.1 L where there is no vessel. */
export function drawdownL(line: Line, lowPa: number, highPa: number): number {
  if (line.vessels.length === 0) return 0.1;
  return line.vessels.reduce((sum, v) => sum + 1000 * drawdownM3(v, lowPa, highPa, line.airPa), 0);
}

/** Pressures at the pump between which it rests with all taps shut; null where the pump gives nothing or never rests. */
export function restingPa({ line, gives }: Condition): { lowPa: number; highPa: number } | null {
  if (gives || !line.pump) return null;
  const shutOffPa = pumpOutletPa(line, 0);
  switch (line.control.kind) {
    case 'pressure-switch': {
      const { cutInPa, cutOutPa } = line.control;
      return shutOffPa < cutOutPa ? null : { lowPa: cutInPa, highPa: cutOutPa };
    }
    case 'flow-controller':
      return { lowPa: Math.min(line.control.startPa, shutOffPa), highPa: shutOffPa };
    case 'variable-speed': {
      const highPa = Math.min(shutOffPa, line.control.setPa);
      return { lowPa: highPa - 3e4, highPa };
    }
    case 'none':
      return null;
  }
}

/** L/min lost with all taps shut, at the resting pressure; `isolated` leaves out what is lost in the house. */
export function lossClosedLpm(condition: Condition, pa: number, isolated = false): number {
  const { leakLpm, backLeakLpm } = condition;
  return ((isolated ? 0 : leakLpm) + backLeakLpm) * Math.sqrt(Math.max(0, pa) / 3e5);
}
