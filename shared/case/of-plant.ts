import { InputError } from '../common/errors.ts';
import type { Plant } from '../plant/schema.ts';
import type { Taps } from './taps.ts';

/** What an answer names must be at the plant, and stand once. Each throws an InputError that says what there is. */

export function noRepeats(list: readonly string[], where: string): void {
  const repeated = list.find((item, i) => list.indexOf(item) !== i);
  if (repeated !== undefined) throw new InputError(where, `"${repeated}" stands twice in the list`);
}

export function checkGauge(id: string, plant: Plant, where: string): void {
  checkPart(id, plant, where, (kind) => kind === 'gauge', 'gauge');
}

export function checkPart(
  id: string,
  plant: Plant,
  where: string,
  fits: (kind: string) => boolean,
  name: string,
): void {
  const there = plant.line.filter((part) => fits(part.kind)).map((part) => part.id);
  if (there.includes(id)) return;
  const list = there.length > 0 ? `those there: ${there.join(', ')}` : `this plant has none`;
  throw new InputError(where, `no ${name} "${id}"; ${list}`);
}

export function checkTaps(taps: Taps, plant: Plant, where: string): void {
  if (typeof taps === 'string' || !Array.isArray(taps.open)) return;
  const house = plant.line.find((part) => part.kind === 'house');
  const there = (house?.taps ?? []).map((tap) => tap.id);
  noRepeats(taps.open, `${where}.open`);
  taps.open.forEach((id, i) => {
    if (there.includes(id)) return;
    const list =
      there.length > 0 ? `those there: ${there.join(', ')}` : 'this house names none: use a number';
    throw new InputError(`${where}.open[${i}]`, `no tap "${id}"; ${list}`);
  });
}
