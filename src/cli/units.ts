import type { CAC, Command } from 'cac';
import { pressureUnits, siUnits, type Units, volumeUnits } from '../../shared/ruleset/figures.ts';
import type { Say } from './io.ts';
import { oneOf } from './one-of.ts';

/** The reader's units as given on the command line. */
export interface UnitOptions {
  readonly pressure?: string | undefined;
  readonly volume?: string | undefined;
}

/**
 * What figures for people are told in: bar and litres where nothing is said, with the decimal sign of the language.
 * @param language left out: a point, as in files
 * @throws InputError naming an option whose unit is not known
 */
export function unitsOf(options: UnitOptions, language: string | undefined): Units {
  return {
    pressure: oneOf('--pressure', options.pressure, pressureUnits) ?? siUnits.pressure,
    volume: oneOf('--volume', options.volume, volumeUnits) ?? siUnits.volume,
    ...(language !== undefined && { language }),
  };
}

/** The options of units, in the words of the language spoken. */
export function withUnits(command: Command, say: Say): ReturnType<CAC['command']> {
  return command
    .option('--pressure <unit>', say('help-ask-pressure'))
    .option('--volume <unit>', say('help-ask-volume'));
}
