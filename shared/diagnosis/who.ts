import type { Audience } from '../case/answer.ts';
import type { Actor } from './result.ts';

/** The phrase for who does a job: a householder is "you" only to themselves. */
export const whoPhrase = (by: Actor, audience: Audience): string =>
  by === 'householder' && audience !== 'householder' ? 'who-themselves' : `who-${by}`;
