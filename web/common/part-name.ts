import type { Part } from '../../shared/plant/schema.ts';
import type { Say } from './say.ts';

/** The key behind "kind-", "about-" and "where-": what a part is, and for a filter what is inside. */
export const wordsOfPart = (part: Part): string =>
  part.kind === 'filter' ? part.medium : part.kind;

/** "sed-1, sediment filter"; only "tank" where the name says no more than the kind. */
export function partName(id: string, words: string, say: Say): string {
  return id === words
    ? say(`kind-${words}`)
    : say('part-and-kind', { id, kind: say(`kind-${words}`) });
}
