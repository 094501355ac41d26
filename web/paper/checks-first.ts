import type { Plant } from '../../shared/plant/schema.ts';

/** What the pump house's sheet says to look at first, by the keys of its words: only what this plant has. */
export function checksFirst({ line }: Plant): readonly string[] {
  const has = (...kinds: string[]): boolean => line.some(({ kind }) => kinds.includes(kind));
  return [
    'first-danger',
    ...(has('tank') ? ['first-tank'] : []),
    ...(has('pump') ? ['first-power'] : []),
    ...(has(...NUMBERED) ? ['first-valves'] : []),
    has('gauge') ? 'first-gauges' : 'first-bucket',
  ];
}

/** Numbered on the sheet's drawing and in its list. */
export const NUMBERED: readonly string[] = ['valve', 'bypass', 'drain'];
