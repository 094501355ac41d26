import { sureness } from '../../../shared/diagnosis/say.ts';
import type { Showing } from './result.ts';

/** "very likely, 93 in 100": a word of the project's one scale, and the figure. */
export function probabilityText(probability: number, { words, say }: Showing): string {
  return `${sureness(words, probability)}, ${figureText(probability, say)}`;
}

/** The figure alone. Nothing is ever called 0 or 100 in 100. */
export function figureText(probability: number, say: Showing['say']): string {
  const n = Math.round(probability * 100);
  if (n < 1) return say('under-one-in-hundred');
  if (n > 99) return say('over-ninety-nine-in-hundred');
  return say('in-hundred', { n });
}
