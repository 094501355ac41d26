import type { HeardWork, KeptCase, KeptEntry } from './kept.ts';

/** Most cases never come to a job; what sends and takes what happens there lies with all else a case on the server needs. */
const workSync = () => import('../desk/beside-case.ts');

export const takeWork = (key: string, heard: HeardWork): Promise<KeptCase | undefined> =>
  workSync().then((file) => file.takeWork(key, heard));
export const sendEntry = (kept: KeptCase, base: string, entry: KeptEntry): Promise<void> =>
  workSync().then((file) => file.sendEntry(kept, base, entry));
