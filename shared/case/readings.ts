import { z } from 'zod';
import { InputError } from '../common/errors.ts';
import { atLeastZero, finite, LARGEST } from '../common/figures.ts';
import { toBar } from '../hydraulics/units.ts';
import type { Plant } from '../plant/schema.ts';
import { checkGauge, checkTaps } from './of-plant.ts';
import { parseWith } from './parse-with.ts';
import { tapsSchema } from './taps.ts';

export const readingsSchema = z.strictObject({
  taps: tapsSchema,
  bar: z.record(z.string(), z.union([finite, z.literal('unknown')])),
  flowLpm: atLeastZero.optional(),
  pump: z.enum(['on', 'off']).optional(),
});
export type Readings = z.infer<typeof readingsSchema>;

// Each pressure is checked by hand, so that a bad one is named by its gauge.
const pressures = z.union([z.literal('unknown'), z.record(z.string(), z.unknown())], {
  error: 'a pressure per gauge, e.g. {"G1": 3.4}, or "unknown"',
});
const readingsInput = readingsSchema.omit({ bar: true }).extend({
  bar: pressures.optional(),
  psi: pressures.optional(),
  kPa: pressures.optional(),
});

/** A full vacuum is -1.01 bar at sea level; a gauge may be off a little. */
const LOWEST_BEFORE_PUMP_BAR = -1.1;

/** Checks what the gauges read, in bar, psi or kPa, and returns it in bar. */
export function parseReadings(value: unknown, plant: Plant, where: string): Readings {
  const input = parseWith(readingsInput, value, where);
  const units = (['bar', 'psi', 'kPa'] as const).filter((unit) => input[unit] !== undefined);
  if (units.length > 1)
    throw new InputError(where, `two pressure units (${units.join(', ')}): give one`);
  const unit = units[0];
  if (!unit && input.flowLpm === undefined) {
    throw new InputError(
      where,
      'needs the pressures: "bar", "psi" or "kPa" with a value per gauge, or "unknown"',
    );
  }
  const given = (unit && input[unit]) ?? {};
  const inBar = toBar[unit ?? 'bar'];
  const bar: Record<string, number | 'unknown'> = {};
  if (given === 'unknown') {
    for (const part of plant.line) if (part.kind === 'gauge') bar[part.id] = 'unknown';
  } else {
    const pumpAt = plant.line.findIndex((part) => part.kind === 'pump');
    for (const id of Object.keys(given).sort()) {
      const place = `${where}.${unit}.${id}`;
      checkGauge(id, plant, place);
      const reading = given[id];
      if (typeof reading === 'number' && Number.isFinite(reading)) {
        const isBeforePump = plant.line.findIndex((part) => part.id === id) < pumpAt;
        checkPressure(reading, unit ?? 'bar', isBeforePump, place);
        bar[id] = inBar(reading);
      } else if (reading === 'unknown') bar[id] = reading;
      else throw new InputError(place, 'give a number, or "unknown" when it cannot be read');
    }
  }
  checkTaps(input.taps, plant, `${where}.taps`);
  if (input.taps === 'closed' && (input.flowLpm ?? 0) > 0) {
    throw new InputError(`${where}.flowLpm`, 'water cannot be drawn with all taps closed');
  }
  return {
    taps: input.taps,
    bar,
    ...(input.flowLpm !== undefined && { flowLpm: input.flowLpm }),
    ...(input.pump !== undefined && { pump: input.pump }),
  };
}

/** Refuses a pressure that no gauge shows there, and says which ones can be, in the reader's unit. */
function checkPressure(
  reading: number,
  unit: keyof typeof toBar,
  isBeforePump: boolean,
  where: string,
): void {
  if (reading > LARGEST) {
    throw new InputError(
      where,
      `${reading} ${unit} cannot be: at most ${LARGEST}; look at the figure again, or "unknown" when it cannot be read`,
      { id: 'at-most', holes: { most: LARGEST } },
    );
  }
  const lowestBar = isBeforePump ? LOWEST_BEFORE_PUMP_BAR : 0;
  if (toBar[unit](reading) >= lowestBar) return;
  const lowest = Math.ceil((lowestBar / toBar[unit](1)) * 10) / 10;
  const can = isBeforePump
    ? `a gauge before the pump reads ${lowest} or more, less is below a full vacuum`
    : 'a gauge here reads zero or more';
  throw new InputError(
    where,
    `${reading} ${unit} cannot be: ${can}`,
    isBeforePump
      ? { id: 'below-vacuum', holes: { lowest: { bar: lowestBar } } }
      : { id: 'below-zero' },
  );
}
