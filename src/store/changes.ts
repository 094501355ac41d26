import type { Kysely } from 'kysely';
import type { Tables } from './tables.ts';

/** Who watches which case within this server, and how they hear of changes. */
export interface Changes {
  /** Calls `heard` whenever the case changed, here or on another server. Returns the way to stop. */
  watch(caseRef: string, heard: () => void): () => void;
  /** Tells the watchers in this process. */
  readonly tell: (caseRef: string) => void;
  stop(): void;
}

/** Cases asked about in one query; SQLite allows 32 766 parameters, a plan for fewer is cheaper. */
const BATCH = 500;

/**
 * Watching holds nothing that matters: a change made elsewhere is found by comparing version numbers every `pollMs`,
 * only for cases that someone watches. PostgreSQL's notifications only make it faster.
 */
export function createChanges(
  db: Kysely<Tables>,
  pollMs: number,
  onError: (error: Error) => void,
): Changes {
  const watchers = new Map<string, Set<() => void>>();
  const seen = new Map<string, number>();

  const tell = (caseRef: string): void => {
    for (const heard of watchers.get(caseRef) ?? []) heard();
  };

  const look = async (): Promise<void> => {
    const refs = [...watchers.keys()];
    for (let from = 0; from < refs.length; from += BATCH) {
      const batch = refs.slice(from, from + BATCH);
      const rows = await db
        .selectFrom('cases')
        .select(['ref', 'version'])
        .where('ref', 'in', batch)
        .execute();
      const found = new Map(rows.map((row) => [row.ref, row.version]));
      for (const ref of batch) {
        const version = found.get(ref) ?? -1; // erased
        // The first look always tells: a change may have come between the watcher's own reading and this one.
        if (seen.get(ref) === version) continue;
        seen.set(ref, version);
        tell(ref);
      }
    }
  };

  let busy = false;
  const timer = setInterval(() => {
    if (busy || watchers.size === 0) return;
    busy = true;
    look()
      .catch(onError)
      .finally(() => {
        busy = false;
      });
  }, pollMs);
  timer.unref();

  return {
    tell,
    watch(caseRef, heard) {
      const set = watchers.get(caseRef) ?? new Set();
      watchers.set(caseRef, set.add(heard));
      return () => {
        set.delete(heard);
        if (set.size > 0) return;
        watchers.delete(caseRef);
        seen.delete(caseRef);
      };
    },
    stop: () => clearInterval(timer),
  };
}
