import { resolvePlant } from '../../shared/plant/defaults.ts';
import type { Plant } from '../../shared/plant/schema.ts';
import { type CleanPoint, cleanBand } from '../drawing/clean-band.ts';
import type { NormalReading } from './protocol.ts';

/**
 * What each gauge shows when nothing is wrong, at its own height: with all taps shut, and with one ordinary tap open.
 * At rest a pressure switch leaves anything between its two pressures.
 */
export function normalReadings(plant: Plant): NormalReading[] {
  const closed = cleanBand(plant, 'closed');
  const open = cleanBand(plant, { open: 1 });
  const pump = resolvePlant(plant).plant.line.find((part) => part.kind === 'pump');
  const swingBar =
    pump?.control.kind === 'pressure-switch' ? pump.control.cutOutBar - pump.control.cutInBar : 0;
  const none: CleanPoint = { lowBar: 0, bar: 0, highBar: 0 };
  return plant.line.flatMap((part, i) => {
    if (part.kind !== 'gauge') return [];
    const rest = closed[i] ?? none;
    return [
      {
        gauge: part.id,
        closed: { ...rest, lowBar: Math.max(0, rest.lowBar - swingBar) },
        open: open[i] ?? none,
      },
    ];
  });
}
