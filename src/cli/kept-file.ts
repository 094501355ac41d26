import type { World } from './world.ts';

/** Where a case is kept by somebody at a terminal who named no file. */
export const DEFAULT_FILE = 'gaugewalk-case.json';

/** A file that is not there yet: `name`, or the first free one with a number before its ending ("case-2.json"). */
export function freeFile(name: string, world: Pick<World, 'exists'>): string {
  let file = name;
  for (let n = 2; world.exists(file); n++) file = name.replace('.', `-${n}.`);
  return file;
}

/** As a shell takes it for one word. */
export const quoted = (word: string): string => (/\s/.test(word) ? JSON.stringify(word) : word);
