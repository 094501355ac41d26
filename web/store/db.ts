import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import { isAtDesk } from '../desk/signed-in.ts';
import { type KeptCase, waitingOf, withoutCall } from './kept.ts';

interface Schema extends DBSchema {
  cases: { key: string; value: KeptCase; indexes: { changedAt: string } };
}

let opened: Promise<IDBPDatabase<Schema>> | undefined;

function db(): Promise<IDBPDatabase<Schema>> {
  opened ??= openDB<Schema>('gaugewalk', 1, {
    upgrade: (base) => {
      base.createObjectStore('cases', { keyPath: 'key' }).createIndex('changedAt', 'changedAt');
    },
  });
  return opened;
}

export async function readCase(key: string): Promise<KeptCase | undefined> {
  return (await db()).get('cases', key);
}

/** The cases kept here, latest change first. */
export async function listCases(): Promise<KeptCase[]> {
  return (await (await db()).getAllFromIndex('cases', 'changedAt')).reverse();
}

export async function forgetCase(key: string): Promise<void> {
  await (await db()).delete('cases', key);
}

/** Forgets how to get in and whom to call, once there is nothing to get in for. */
export async function forgetCall(key: string): Promise<void> {
  await changeCase(key, withoutCall);
}

/**
 * Whoever signs out leaves the device to others: the desk's cases go from it. One that holds what only this
 * browser knows of stays without its way in.
 */
export async function forgetDesk(): Promise<void> {
  for (const kept of await listCases()) {
    if (isAtDesk(kept.base) && waitingOf(kept) === 0 && kept.work.length === 0)
      await forgetCase(kept.key);
    else await forgetCall(kept.key);
  }
}

export async function putCase(kept: KeptCase): Promise<void> {
  await (await db()).put('cases', kept);
}

/**
 * Changes a case as it stands now, whatever else has changed it since it was read. `change` returns what is to be kept,
 * or null to leave it.
 */
export async function changeCase(
  key: string,
  change: (kept: KeptCase) => KeptCase | null,
): Promise<KeptCase | undefined> {
  const write = (await db()).transaction('cases', 'readwrite');
  const before = await write.store.get(key);
  const after = before && change(before);
  if (after) await write.store.put(after);
  await write.done;
  const kept = after ?? before;
  if (kept && after) dispatchEvent(new CustomEvent('gaugewalk-case', { detail: kept }));
  return kept;
}
