import { InputError } from '../../shared/common/errors.ts';
import { type ReadyMade, readyMade } from '../../shared/plant/ready-made.ts';
import { type Plant, parsePlant } from '../../shared/plant/schema.ts';
import { suggestion } from '../../shared/ruleset/nearest.ts';
import { inFile } from './case-file.ts';
import type { Say } from './io.ts';
import { nameOf, readJson } from './json-file.ts';
import type { World } from './world.ts';

/**
 * The plant of a file (or of a case in it), of standard input (`-`), or a ready-made one by its id.
 * @throws InputError naming the file and the place, or the ready-made plants there are
 */
export async function givenPlant(world: World, given: string, say: Say): Promise<Plant> {
  const ready = readyMade.find(({ id }) => id === given);
  if (ready) return inReadersWords(ready, say);
  if (given !== '-' && !world.exists(given)) {
    const ids = readyMade.map(({ id }) => id);
    const mend = suggestion(given, ids, `those there: ${ids.join(', ')}`);
    throw new InputError(given, `there is no such file, nor a ready-made plant; ${mend}`);
  }
  const input = await readJson(world, given);
  const isCase = typeof input === 'object' && input !== null && 'plant' in input;
  return inFile(nameOf(given), () =>
    isCase ? parsePlant(input.plant, 'plant') : parsePlant(input),
  );
}

/** A ready-made plant, called what the reader calls it. */
export const inReadersWords = ({ id, plant }: ReadyMade, say: Say): Plant => ({
  ...plant,
  name: say(`plant-${id}`),
});
