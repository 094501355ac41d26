import { changeCase } from './db.ts';
import { RequestError, send } from './http.ts';
import type { HeardWork, KeptCase, KeptEntry } from './kept.ts';
import { toSend, withAside, withHeard, withServers } from './work-log.ts';

/** Brings what happened at jobs to the server and from there. */

export const takeWork = (key: string, heard: HeardWork): Promise<KeptCase | undefined> =>
  changeCase(key, (now) => withHeard(now, heard));

/** Sends the first entry that the server has not got, and takes what came there between. */
export async function sendEntry(kept: KeptCase, base: string, entry: KeptEntry): Promise<void> {
  const seen = kept.logSent ?? 0;
  const body = { ...toSend(entry), seen };
  let answered: Answered;
  try {
    answered = await send<Answered>('POST', `${base}/work`, body);
  } catch (error) {
    if (!isForGood(error)) throw error;
    await changeCase(kept.key, (now) => withAside(now, entry.eventId));
    return;
  }
  const { count, work } = answered;
  if (count > seen) {
    await takeWork(kept.key, { workCount: count, work });
    return;
  }
  // a server put back to an earlier day has less than it had: its whole list is taken, and ours go there again
  const { case: theirs } = await send<{ case: Pick<HeardWork, 'work'> }>('GET', base);
  await changeCase(kept.key, (now) => withServers(now, theirs.work));
}

/** Sent again it would be refused again: it cannot be used, or there is no more room. */
const isForGood = (error: unknown): boolean =>
  error instanceof RequestError && (error.status === 422 || error.about === 'work-full');

interface Answered extends Pick<HeardWork, 'work'> {
  readonly count: number;
}
