import type { Audience } from '../case/answer.ts';
import type { Actor, PlannedJob } from './result.ts';

/** The phrase for who does a job: a householder is "you" only to themselves. */
export const whoPhrase = (by: Actor, audience: Audience): string =>
  by === 'householder' && audience !== 'householder' ? 'who-themselves' : `who-${by}`;

/** What a householder is to do before anybody comes: all of it, where nobody does. */
export function atHome<J extends Pick<PlannedJob, 'by'>>(plan: readonly J[]): readonly J[] {
  const visit = plan.findIndex(({ by }) => by !== 'householder');
  return visit < 0 ? plan : plan.slice(0, visit);
}
