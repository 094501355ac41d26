import { type Format, formatOf } from './format.ts';
import { useSettings } from './settings.ts';
import { useSay } from './words.ts';

/** Numbers, pressures and days as the reader of this screen wants them. */
export function useFormat(): Format {
  const { settings } = useSettings();
  return formatOf(settings, useSay());
}
