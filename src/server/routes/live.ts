import type { Context } from 'hono';
import { streamSSE } from 'hono/streaming';
import { listAnswers } from '../../store/repositories/answers.ts';
import { findCase } from '../../store/repositories/cases.ts';
import type { AppEnv } from '../deps.ts';
import { Problem } from '../problem.ts';
import { toAnswer } from '../services/answer-rows.ts';
import { caseInput, shownState, type Wording } from '../services/views.ts';
import { readWork } from '../services/work.ts';
import type { RouteDeps } from './open-api-app.ts';

/** Keeps the connection open through balancers that cut silent ones. */
const HEARTBEAT_MS = 15_000;
const MAX_WATCHERS = 2000;

/** Whether a watcher may go on; whose sign-in has ended may still see the case once they sign in again. */
export type Allowed = 'yes' | 'no' | 'signed-out';

interface Watched {
  readonly ref: string;
  readonly wording: Wording;
  /** answers, and events at jobs, that are not sent again */
  readonly seen: number;
  readonly work: number;
  /** whether who sent an event is told */
  readonly isNamed: boolean;
  readonly stillAllowed: () => Promise<Allowed>;
}

/**
 * Sends a `change` event at once and then whenever the case changes, until the watcher goes, the server stops, or
 * `stillAllowed` does not say yes (a `no` is told by a last event `withdrawn`). `seen` answers are not sent again: after a lost connection
 * the browser sends the last event's id, and nothing is missed or doubled. Of jobs it then hears again what it asked for
 * at first; which of it is known tells its count.
 */
export async function liveCase(
  c: Context<AppEnv>,
  { deps, views }: RouteDeps,
  { ref, wording, seen, work, isNamed, stillAllowed }: Watched,
): Promise<Response> {
  const { store, metrics, stopping } = deps;
  const watching = (await metrics.watching.get()).values[0]?.value ?? 0;
  if (watching >= MAX_WATCHERS) {
    throw new Problem(
      503,
      'Too many live connections; read the case instead.',
      'too-many-watchers',
    );
  }
  c.header('cache-control', 'no-store');
  c.header('x-accel-buffering', 'no'); // nginx and its kin would hold events back
  return streamSSE(c, async (stream) => {
    const turn = createTurn();
    const unwatch = store.changes.watch(ref, turn.wake);
    const stop = (): void => turn.wake();
    stopping.addEventListener('abort', stop);
    stream.onAbort(stop);
    metrics.watching.inc();
    let sentAnswers = seen;
    let sentEvents = work;
    let sentVersion = -1;
    try {
      while (!stream.aborted && !stopping.aborted) {
        const allowed = await stillAllowed();
        if (allowed === 'signed-out') return;
        const row = allowed === 'yes' ? await findCase(store.db, ref) : undefined;
        if (!row) {
          await stream.writeSSE({ event: 'withdrawn', data: '{}' });
          return;
        }
        if (row.version !== sentVersion) {
          const rows = await listAnswers(store.db, ref);
          const happened = await readWork(store.db, ref, isNamed);
          const view = await views(caseInput(row, rows, wording));
          const data = {
            count: rows.length,
            answers: rows.slice(sentAnswers).map(toAnswer),
            state: shownState(row, rows.length, view),
            view,
            workCount: happened.length,
            work: happened.slice(sentEvents),
          };
          await stream.writeSSE({
            event: 'change',
            id: String(rows.length),
            data: JSON.stringify(data),
          });
          sentAnswers = rows.length;
          sentEvents = happened.length;
          sentVersion = row.version;
        } else {
          await stream.write(': still here\n\n');
        }
        await turn.next(HEARTBEAT_MS);
      }
    } catch (error) {
      deps.log.error(
        { case: ref, error: error instanceof Error ? error.message : String(error) },
        'live connection failed',
      );
    } finally {
      metrics.watching.dec();
      unwatch();
      stopping.removeEventListener('abort', stop);
    }
  });
}

/** Waits for a wake-up or a time, whichever is first; a wake-up while nobody waits is kept for the next wait. */
function createTurn(): { wake: () => void; next: (ms: number) => Promise<void> } {
  let woken = false;
  let resume: (() => void) | undefined;
  return {
    wake() {
      woken = true;
      resume?.();
    },
    async next(ms) {
      if (!woken) {
        let timer: NodeJS.Timeout | undefined;
        await new Promise<void>((resolve) => {
          resume = resolve;
          timer = setTimeout(resolve, ms);
        });
        clearTimeout(timer);
        resume = undefined;
      }
      woken = false;
    },
  };
}
