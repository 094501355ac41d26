import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe } from 'vitest';
import { openStore, type Store, type StoreKind, type StoreOptions } from '../../src/store/store.ts';
import { startPostgres, type TestPostgres } from './postgres.ts';

export interface TestPlace {
  readonly kind: StoreKind;
  /** where a new, empty store is: open it as often as there are servers */
  newPlace(): Promise<StoreOptions>;
}

/** Runs the same tests on both stores, each real. */
export function onBothStores(name: string, tests: (place: TestPlace) => void): void {
  describe.each(['sqlite', 'postgres'] as const)(`${name} on %s`, (kind) => {
    let postgres: TestPostgres | undefined;
    const folders: string[] = [];
    beforeAll(async () => {
      if (kind === 'postgres') postgres = await startPostgres();
    }, 180_000);
    afterAll(async () => {
      await postgres?.stop();
      for (const folder of folders) rmSync(folder, { recursive: true, force: true });
    }, 60_000);
    tests({
      kind,
      async newPlace() {
        const dataDir = mkdtempSync(join(tmpdir(), 'gaugewalk-store-'));
        folders.push(dataDir);
        return { dataDir, pollMs: 50, databaseUrl: await postgres?.newDatabase() };
      },
    });
  });
}

/** A new store, closed when the test file ends. */
export function storeOpener(place: TestPlace): (options?: StoreOptions) => Promise<Store> {
  const open: Store[] = [];
  afterAll(() => Promise.all(open.map((store) => store.close())));
  return async (options) => {
    const store = await openStore(options ?? (await place.newPlace()));
    open.push(store);
    return store;
  };
}
