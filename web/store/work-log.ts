import type { WorkEntry } from '../../shared/work/log.ts';
import { newUuid } from '../common/ids.ts';
import type { HeardWork, KeptCase, KeptEntry } from './kept.ts';

/** What happened at a case's jobs, as this browser keeps it. */

type Logged = Pick<KeptCase, 'log' | 'logSent' | 'device' | 'aside'>;

/** With one entry more, made here. `follows`: what the screen had come to, not what has arrived meanwhile. */
export function withEntry<C extends Logged>(
  kept: C,
  made: Omit<WorkEntry, 'eventId' | 'device'>,
): C {
  const device = kept.device ?? newUuid();
  return { ...kept, device, log: [...(kept.log ?? []), { ...made, device, eventId: newUuid() }] };
}

/** The case with the server's whole list first, then what the server has not got yet, each once. */
export function withServers<C extends Logged>(kept: C, theirs: readonly KeptEntry[]): C {
  const known = new Set(theirs.map(({ eventId }) => eventId));
  const ours = (kept.log ?? []).filter(({ eventId }) => !known.has(eventId));
  return { ...kept, log: [...theirs, ...ours], logSent: theirs.length };
}

/** The same, told only the last of the list; null where that is older than what is known, or leaves a hole. */
export function withHeard<C extends Logged>(kept: C, { workCount, work }: HeardWork): C | null {
  const { log = [], logSent = 0 } = kept;
  const first = workCount - work.length;
  if (first > logSent || workCount < logSent) return null;
  return withServers(kept, [...log.slice(0, first), ...work]);
}

/** What happened at the jobs as it counts here: what the server can never take stands where it was made. */
export const logOf = ({ log = [], aside = [] }: Logged): readonly KeptEntry[] =>
  aside.reduceRight((before: readonly KeptEntry[], entry) => {
    const at = before.findIndex(({ eventId }) => eventId === entry.follows) + 1;
    return [...before.slice(0, at), entry, ...before.slice(at)];
  }, log);

/** The case with an entry set aside that the server can never take; what followed it follows what was before it. */
export function withAside<C extends Logged>(kept: C, eventId: string): C {
  const { log = [], aside = [] } = kept;
  const entry = log.find((one) => one.eventId === eventId);
  if (!entry) return kept;
  const rest = log
    .filter((one) => one !== entry)
    .map((one) => (one.follows === eventId ? { ...one, follows: entry.follows } : one));
  return { ...kept, log: rest, aside: [...aside, { ...entry, refused: true }] };
}

/** What is sent of an entry: not what the server told of it. */
export const toSend = ({ by, receivedAt, ...made }: KeptEntry): WorkEntry => made;

/** Jobs begun under an older client, as entries. */
export function withoutOldWork(kept: KeptCase): KeptCase {
  let after: KeptCase = { ...kept, work: [] };
  for (const { job, parts, events } of kept.work) {
    let follows: string | null = null;
    for (const event of events) {
      after = withEntry(after, { job, part: parts[0] ?? null, event, follows });
      follows = after.log?.at(-1)?.eventId ?? null;
    }
  }
  return after;
}

const LAST_DIGITS = 2;

/**
 * The id of the n-th answer that a job adds to the case, made from its last entry: written down on two devices, the same
 * job adds the same answers once.
 */
export const answerIdOf = (lastEntry: string, n: number): string =>
  lastEntry.slice(0, -LAST_DIGITS) + n.toString(16).padStart(LAST_DIGITS, '0');
