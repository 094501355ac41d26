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

/**
 * Chance that jobs done one after the other end the trouble, or what of it falls to some of them: the chance of a later
 * one is that after those before it did not end it.
 */
export function endedBy<J extends Pick<PlannedJob, 'cures'>>(
  jobs: readonly J[],
  counts: (job: J) => boolean = () => true,
): number {
  let left = 1;
  let ended = 0;
  for (const job of jobs) {
    if (counts(job)) ended += left * job.cures;
    left *= 1 - job.cures;
  }
  return ended;
}

/** Where jobs at home end the trouble at least this likely, nobody is sent yet. */
const WORTH_TRYING = 0.35;

export const isWorthTrying = (jobs: readonly Pick<PlannedJob, 'cures'>[]): boolean =>
  endedBy(jobs) >= WORTH_TRYING;

type FirstOf<J> = (job: J) => { readonly by: Actor } | null | undefined;

/** Whether somebody else's work stands before a job. */
export const waits =
  <J>(firstOf: FirstOf<J>) =>
  (job: J): boolean =>
    (firstOf(job)?.by ?? 'householder') !== 'householder';

/**
 * Who must come before the telephone can settle it: somebody else's work stands before jobs at home, and the others alone
 * are not worth trying. Null: nobody.
 * @param firstOf what must be done on this plant before a job can be begun there
 */
export function comesBefore<J extends Pick<PlannedJob, 'cures'>>(
  home: readonly J[],
  firstOf: FirstOf<J>,
): Actor | null {
  const isWaiting = waits(firstOf);
  const first = home.find(isWaiting);
  return first && endedBy(home, (job) => !isWaiting(job)) < WORTH_TRYING
    ? (firstOf(first)?.by ?? null)
    : null;
}
