import type { Part, Plant } from '../../shared/plant/schema.ts';
import type { Say } from './say.ts';

/** The key behind "kind-", "about-" and "where-": what a part is, and for a filter what is inside. */
export const wordsOfPart = (part: Part): string =>
  part.kind === 'filter' ? part.medium : part.kind;

/** Where there is little room: the name, or one word for the kind where the name says no more than it. */
export const partLabel = (id: string, words: string, say: Say): string =>
  id === words ? say(`short-${words}`) : id;

/** "sed-1, sediment filter"; only "tank" where the name says no more than the kind. */
export function partName(id: string, words: string, say: Say): string {
  return id === words
    ? say(`kind-${words}`)
    : say('part-and-kind', { id, kind: say(`kind-${words}`) });
}

/** What a part of a plant is called where there is little room. */
export function labelOf(id: string, { line }: Plant, say: Say): string {
  const part = line.find((one) => one.id === id);
  return part ? partLabel(id, wordsOfPart(part), say) : id;
}
