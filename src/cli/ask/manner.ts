import type { CAC, Command } from 'cac';
import type { Typing } from '../../../shared/interview/reply.ts';
import { pressureUnits, siUnits, volumeUnits } from '../../../shared/ruleset/figures.ts';
import type { Say } from '../io.ts';
import { oneOf } from '../one-of.ts';
import type { Person } from './person.ts';
import type { Manner } from './talk.ts';

/** Units given beforehand on the command line; those left out are asked for before the first figure. */
export interface UnitOptions {
  readonly pressure?: string | undefined;
  readonly volume?: string | undefined;
  /** whose decimal sign figures carry; a point when left out */
  readonly language?: string | undefined;
}

/** How a conversation begins: nothing told yet, units as given. */
export function mannerOf(person: Person, typing: Typing, say: Say, options: UnitOptions): Manner {
  const pressure = oneOf('--pressure', options.pressure, pressureUnits);
  const volume = oneOf('--volume', options.volume, volumeUnits);
  return {
    ...{ person, typing, say, told: new Set() },
    units: {
      pressure: pressure ?? siUnits.pressure,
      volume: volume ?? siUnits.volume,
      ...(options.language !== undefined && { language: options.language }),
    },
    unitsKnown: new Set([
      ...(pressure ? (['pressure'] as const) : []),
      ...(volume ? (['volume'] as const) : []),
    ]),
  };
}

/** The options of units, in the words of the language spoken. */
export function withUnits(command: Command, say: Say): ReturnType<CAC['command']> {
  return command
    .option('--pressure <unit>', say('help-ask-pressure'))
    .option('--volume <unit>', say('help-ask-volume'));
}
