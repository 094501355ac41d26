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

/** Chance that jobs done one after the other end the trouble. */
export const endedBy = (jobs: readonly Pick<PlannedJob, 'cures'>[]): number =>
  1 - jobs.reduce((left, { cures }) => left * (1 - cures), 1);

/** Where jobs at home end the trouble at least this likely, nobody is sent yet. */
const WORTH_TRYING = 0.35;

export const isWorthTrying = (jobs: readonly Pick<PlannedJob, 'cures'>[]): boolean =>
  endedBy(jobs) >= WORTH_TRYING;

/**
 * Who must come before the telephone can settle it: somebody else's work stands before jobs at home, and the others alone
 * are not worth trying. Null: nobody.
 * @param firstOf what must be done on this plant before a job can be begun there
 */
export function comesBefore<J extends Pick<PlannedJob, 'cures'>>(
  home: readonly J[],
  firstOf: (job: J) => { readonly by: Actor } | null | undefined,
): Actor | null {
  const waiting = home.filter((job) => (firstOf(job)?.by ?? 'householder') !== 'householder');
  const [first] = waiting;
  return first && !isWorthTrying(home.filter((job) => !waiting.includes(job)))
    ? (firstOf(first)?.by ?? null)
    : null;
}
