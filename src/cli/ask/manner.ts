import type { Typing } from '../../../shared/interview/reply.ts';
import type { Say } from '../io.ts';
import { type UnitOptions, unitsOf } from '../units.ts';
import type { Person } from './person.ts';
import type { Manner } from './talk.ts';

/**
 * How a conversation begins: nothing told yet, units as given beforehand; those left out are asked for before the first
 * figure.
 */
export function mannerOf(
  person: Person,
  typing: Typing,
  say: Say,
  options: UnitOptions,
  language: string | undefined,
): Manner {
  return {
    ...{ person, typing, say, told: new Set() },
    units: unitsOf(options, language),
    unitsKnown: new Set([
      ...(options.pressure === undefined ? [] : (['pressure'] as const)),
      ...(options.volume === undefined ? [] : (['volume'] as const)),
    ]),
  };
}
