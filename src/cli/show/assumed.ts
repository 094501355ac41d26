import type { Assumed } from '../../../shared/plant/defaults.ts';
import {
  dropDigits,
  flowUnits,
  inVolumeUnit,
  looseText,
  numberText,
  type Units,
} from '../../../shared/ruleset/figures.ts';

/**
 * A value that stands in for what was not said: the name of its field and the value. Pressures, flows and volumes are in
 * the reader's unit, so their names go without the file's.
 */
export function assumedPair(
  { field, value }: Pick<Assumed, 'field' | 'value'>,
  units: Units,
): readonly [name: string, value: string] {
  if (typeof value !== 'number') return [field, valueText(value, units)];
  const [unit] = field.match(/(Bar|Lpm|(?<=[a-z])L)$/) ?? [];
  const name = unit === undefined ? field : field.slice(0, -unit.length);
  const { volume, language } = units;
  if (unit === 'Bar') return [name, looseText(value, units, dropDigits)];
  if (unit === undefined) return [name, numberText(value, 4, language, true)];
  const figure = numberText(inVolumeUnit(value, volume), 1, language, true);
  return [name, `${figure} ${unit === 'Lpm' ? flowUnits[volume] : volume}`];
}

function valueText(value: unknown, units: Units): string {
  if (Array.isArray(value)) return value.map((one) => valueText(one, units)).join(', ');
  if (typeof value !== 'object' || value === null) return String(value);
  return Object.entries(value)
    .map(([field, one]) => assumedPair({ field, value: one }, units).join(' '))
    .join(' ');
}
