import type { InputError } from '../common/errors.ts';
import { looseText, numberText, type Units } from '../ruleset/figures.ts';
import type { Say } from './form.ts';

const TOLD_DIGITS = { bar: 2, psi: 1, kPa: 0 };

/** What is wrong, for whoever typed it: in their language and units where it can be typed into a form, else as in files. */
export function faultText({ fault, message }: InputError, say: Say, units: Units): string {
  if (!fault) return message;
  const holes = Object.entries(fault.holes ?? {}).map(([name, value]) => [
    name,
    typeof value === 'object'
      ? looseText(value.bar, units, TOLD_DIGITS)
      : typeof value === 'number'
        ? numberText(value, 4, units.language, true)
        : value,
  ]);
  return say(`wrong-${fault.id}`, Object.fromEntries(holes));
}
