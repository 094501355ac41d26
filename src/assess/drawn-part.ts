import type { Part } from '../../shared/plant/parts.ts';
import type { Random } from './random.ts';

/** A field that is known (the same in both) or not (left out of what is told). */
type Fields = Record<string, unknown>;
export interface Drawn {
  readonly truth: Part;
  readonly told: Part;
}

/** A part known in everything. */
export const whole = (p: Part): Drawn => ({ truth: p, told: p });

/**
 * A part whose fields are each known with the chance given, evenly drawn where known; where not, drawn from a narrower
 * middle and left out of what is told.
 */
export function part(
  random: Random,
  fixed: Fields,
  fields: Record<string, readonly [middle: number, known: number, low: number, high: number]>,
): Drawn {
  const truth: Fields = { ...fixed };
  const told: Fields = { ...fixed };
  for (const [name, [middle, known, low, high]] of Object.entries(fields)) {
    if (random.chance(known)) {
      truth[name] = rounded(random.between(low, high));
      told[name] = truth[name];
    } else truth[name] = rounded(middle * Math.exp(random.normal(0.2)));
  }
  return { truth: truth as Part, told: told as Part };
}

export const rounded = (value: number): number => Math.round(value * 1000) / 1000;
