import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pino } from 'pino';
import { createAuth } from '../../src/server/auth.ts';
import { readConfig } from '../../src/server/config.ts';
import { rulesJudge } from '../../src/server/rules-judge.ts';
import { type Running, startServer } from '../../src/server/start.ts';
import { openStore } from '../../src/store/store.ts';

/** The real server on a data folder of its own, which can be stopped and started again at the same address. */
export interface Site {
  readonly url: string;
  stop(): Promise<void>;
  start(): Promise<void>;
  /** stops it for good and takes its data away */
  end(): Promise<void>;
}

export const agent = { name: 'Agent', email: 'agent@example.org', password: 'a long pass phrase' };
export const technician = { ...agent, name: 'Technician', email: 'technician@example.org' };
export const owner = { ...agent, name: 'Owner', email: 'owner@example.org' };

/** @param webDir the client it serves; the one that was built when left out */
export async function openSite(
  webDir = join(import.meta.dirname, '../../dist/web'),
): Promise<Site> {
  const dataDir = mkdtempSync(join(tmpdir(), 'gaugewalk-browser-'));
  const store = await openStore({ databaseUrl: undefined, dataDir, onError: () => {} });
  const auth = await createAuth(store, 'http://127.0.0.1');
  await auth.addPerson({ ...agent, role: 'agent' });
  await auth.addPerson({ ...technician, role: 'technician' });
  await auth.addPerson({ ...owner, role: 'owner' });
  await store.close();
  let port = '0';
  let running: Running | undefined;
  const start = async (): Promise<void> => {
    running = await startServer({
      config: readConfig({ PORT: port, DATA_DIR: dataDir, LOG_LEVEL: 'silent' }),
      judge: rulesJudge(() => new Date()),
      log: pino({ level: 'silent' }),
      version: 'test',
      webDir,
    });
    port = new URL(running.url).port;
  };
  const stop = async (): Promise<void> => {
    await running?.stop();
    running = undefined;
  };
  await start();
  return {
    url: `http://127.0.0.1:${port}`,
    start,
    stop,
    async end() {
      await stop();
      rmSync(dataDir, { recursive: true });
    },
  };
}
