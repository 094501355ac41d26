import { InputError } from '../../shared/common/errors.ts';
import { suggestion } from '../../shared/ruleset/nearest.ts';

/**
 * An option's value, whatever its case, or undefined when it was left out.
 * @throws InputError naming the option when it is none of those known
 */
export function oneOf<T extends string>(
  option: string,
  given: string | undefined,
  known: readonly T[],
): T | undefined {
  if (given === undefined) return undefined;
  const found = known.find((one) => one.toLowerCase() === String(given).toLowerCase());
  if (found) return found;
  throw new InputError(option, suggestion(String(given), known, `use one of ${known.join(', ')}`));
}
