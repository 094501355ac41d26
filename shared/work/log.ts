import type { WorkEvent } from './state.ts';

/** One thing that happened at a job of a case, as every device and the server keep it: appended, never changed. */
export interface WorkEntry {
  readonly eventId: string;
  /** the entry of this job that stood last on the screen it was made at; null: the first of the case for it */
  readonly follows: string | null;
  readonly job: string;
  /** null where the job finds its own place */
  readonly part: string | null;
  /** a random name of the browser it was made in */
  readonly device: string;
  /** null: the job is over, or is to be begun anew */
  readonly event: WorkEvent | null;
  /** the server can never take it: it counts on the device that made it, and what came after follows what was before it */
  readonly refused?: true;
}

/** A job of a case as its entries leave it. */
export interface JobLog<E extends WorkEntry = WorkEntry> {
  /** those that count since it was begun, in order; the state of the job is replayed from their events */
  readonly counted: readonly (E & { readonly event: WorkEvent })[];
  /** what the next entry must follow to count */
  readonly head: string | null;
  /** who is at it: an entry of another device counts only once that one has looked and said `stillSo` */
  readonly device: string | null;
  /** the last entry came too late to count, by the device that made it; null: it counts */
  readonly tooLate: string | null;
}

/**
 * What of a case's log counts for one job. An entry counts when it was made in sight of all that counted before it, so two
 * devices that were apart never add up to something nobody saw: a pump tried before it was locked anew elsewhere, or a tick
 * from before the job was over. What makes work safer (danger, something lost) counts always while a job is under way.
 * The order is the server's, so every device comes to the same.
 */
export function jobLog<E extends WorkEntry>(
  log: readonly E[],
  job: string,
  part: string | null,
): JobLog<E> {
  const begun: JobLog<E> = { counted: [], head: null, device: null, tooLate: null };
  return log
    .filter((entry) => entry.job === job && entry.part === part)
    .reduce((before, entry) => further(before, entry), begun);
}

function further<E extends WorkEntry>(before: JobLog<E>, entry: E): JobLog<E> {
  const { counted, device } = before;
  const { event, refused } = entry;
  const isNext = entry.follows === before.head;
  const head = refused ? before.head : entry.eventId;
  if (event === null) {
    return isNext
      ? { counted: [], head, device: null, tooLate: null }
      : { ...before, tooLate: entry.device };
  }
  const added = [...counted, { ...entry, event }];
  const isWarning = 'lost' in event || 'danger' in event;
  if (isWarning && device !== null)
    return { counted: added, head: isNext ? head : before.head, device, tooLate: null };
  const isTheirs = device === null || device === entry.device || 'stillSo' in event;
  return isNext && isTheirs
    ? { counted: added, head, device: entry.device, tooLate: null }
    : { ...before, tooLate: entry.device };
}

/** The jobs of a case that are begun and not over, in the order they were begun. */
export function jobsUnderWay<E extends WorkEntry>(
  log: readonly E[],
): readonly (JobLog<E> & Pick<WorkEntry, 'job' | 'part'>)[] {
  const jobs = new Map(log.map(({ job, part }) => [JSON.stringify([job, part]), { job, part }]));
  return [...jobs.values()]
    .map(({ job, part }) => ({ job, part, ...jobLog(log, job, part) }))
    .filter(({ counted }) => counted.length > 0);
}
