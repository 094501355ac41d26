import type { Say } from './words.ts';

const scale = [
  [0.95, 'almost-certain'],
  [0.85, 'very-likely'],
  [0.65, 'likely'],
  [0.35, 'about-even'],
  [0.1, 'possible'],
] as const;

/** How sure, in words: the same scale everywhere. */
export function chanceWord(probability: number, say: Say): string {
  return say(scale.find(([from]) => probability >= from)?.[1] ?? 'unlikely');
}

/** How sure, as a count out of ten; never "10 in 10", because nothing is that sure. */
export function chanceCount(probability: number, say: Say): string {
  if (probability < 0.1) return say('under-one-in-ten');
  if (probability >= 0.95) return say('over-nine-in-ten');
  return say('in-ten', { n: Math.round(probability * 10) });
}
