import type { Answer } from '../../shared/case/answer.ts';
import { changeCase, listCases, readCase } from './db.ts';
import { RequestError, send } from './http.ts';
import { type KeptCase, waitingOf } from './kept.ts';
import { sendEntry } from './lazy-work-sync.ts';
import { forServer, merged } from './merged.ts';

/**
 * Brings kept answers to the server, and then what happened at jobs: in order, each once. The answer's own id makes a
 * repeat harmless; `after` makes the server refuse when others have answered in between, and then theirs go first and ours
 * follow. An answer that the server cannot use is set aside: it goes on counting here, for it may be a danger sign, and the
 * screen says so; the same of what happened at a job.
 */
export type Sync = 'sent' | 'waiting' | 'refused' | 'closed' | 'local';

/** Sent again it would be refused again: a server judges a case by the rule set it was opened under, a browser by its own. */
const CANNOT_BE_USED = 422;
const RETRY_MS = 20_000;

/** Sends what is waiting of one case. Never throws: what cannot be sent now stays and is tried again. */
export async function sync(key: string, language: string): Promise<Sync> {
  const run = (): Promise<Sync> => syncOne(key, language);
  // one tab at a time, so that two open windows do not send side by side
  return navigator.locks ? navigator.locks.request(`gaugewalk ${key}`, run) : run();
}

async function syncOne(key: string, language: string): Promise<Sync> {
  for (;;) {
    const kept = await readCase(key);
    if (!kept || kept.local) return 'local';
    if (kept.closed) return 'closed';
    const answer = forServer(kept)[kept.sent];
    const entry = kept.log?.[kept.logSent ?? 0];
    if (kept.base !== null && !answer && !entry) return 'sent';
    try {
      if (kept.base === null) await open(kept, language);
      else if (answer) await sendOne(kept, kept.base, answer);
      else if (entry) await sendEntry(kept, kept.base, entry);
    } catch (error) {
      if (!(error instanceof RequestError)) throw error;
      if (error.status === 409 && kept.base !== null) {
        if (!(await takeTheirs(kept, kept.base))) return 'waiting';
      } else if ([403, 404, 410].includes(error.status)) {
        await changeCase(key, (now) => ({ ...now, closed: true }));
        return 'closed';
      } else if (error.status === CANNOT_BE_USED) {
        if (kept.base === null) return 'refused';
        if (!answer) return 'waiting';
        await changeCase(key, (now) => ({
          ...now,
          answers: now.answers.map((one) =>
            one.answerId === answer?.answerId ? { ...one, refused: true } : one,
          ),
        }));
      } else return 'waiting';
    }
  }
}

async function open(kept: KeptCase, language: string): Promise<void> {
  const { plant, audience } = kept;
  const { id } = await send<{ id: string }>('POST', '/api/cases', { plant, audience, language });
  await changeCase(kept.key, (now) => ({ ...now, base: `/api/cases/${id}` }));
}

async function sendOne(kept: KeptCase, base: string, answer: Answer): Promise<void> {
  await send('POST', `${base}/answers`, { ...answer, after: kept.sent });
  await changeCase(kept.key, (now) => ({ ...now, sent: Math.max(now.sent, kept.sent + 1) }));
}

/** Others have answered: their answers go before those of ours that have not arrived. */
async function takeTheirs(kept: KeptCase, base: string): Promise<boolean> {
  try {
    const { case: theirs } = await send<{ case: { answers: Answer[] } }>('GET', base);
    // nobody came between: the refusal has another reason, and trying again at once would not help
    if (theirs.answers.length === kept.sent) return false;
    await changeCase(kept.key, (now) => merged(now, theirs.answers));
    return true;
  } catch (error) {
    if (error instanceof RequestError) return false;
    throw error;
  }
}

/** Tries all kept cases again when the network is back, and now and then. Returns a function that stops it. */
export function keepTrying(language: () => string): () => void {
  const all = async (): Promise<void> => {
    for (const kept of await listCases()) {
      if (waitingOf(kept) > 0 && !kept.closed && !kept.local) await sync(kept.key, language());
    }
  };
  const tick = (): void => void all();
  addEventListener('online', tick);
  const timer = setInterval(tick, RETRY_MS);
  tick();
  return () => {
    removeEventListener('online', tick);
    clearInterval(timer);
  };
}
