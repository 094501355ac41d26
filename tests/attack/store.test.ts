import { spawnSync } from 'node:child_process';
import {
  chmodSync,
  existsSync,
  mkdtempSync,
  openSync,
  readFileSync,
  rmSync,
  writeFileSync,
  writeSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { sql } from 'kysely';
import { afterAll, describe, expect, it } from 'vitest';
import { InputError } from '../../shared/common/errors.ts';
import { toInputError } from '../../src/cli/with-store.ts';
import { processWorld } from '../../src/cli/world.ts';
import { openStore } from '../../src/store/store.ts';
import { fernhollow } from '../server/stand-in-judge.ts';
import { answerTo, openedCase, testServer } from '../server/test-server.ts';
import { startPostgres } from '../store/postgres.ts';
import { onBothStores, storeOpener } from '../store/stores.ts';

const folders: string[] = [];
afterAll(() => {
  for (const path of folders) rmSync(path, { recursive: true, force: true });
});
function folder(): string {
  const path = mkdtempSync(join(tmpdir(), 'gaugewalk-attack-'));
  folders.push(path);
  return path;
}

const refusalOf = (dataDir: string): Promise<InputError> =>
  openStore({ dataDir }).then(
    () => Promise.reject(new Error('was opened')),
    (error: unknown) => {
      try {
        return toInputError({ databaseUrl: undefined, dataDir })(error);
      } catch (told) {
        if (told instanceof InputError) return told;
        throw told;
      }
    },
  );

/** Runs as somebody whom the folder's rights bind: root is bound by none. */
async function asNobody<T>(work: () => Promise<T> | T): Promise<T> {
  const isRoot = process.geteuid?.() === 0;
  if (isRoot) process.seteuid?.(65_534);
  try {
    return await work();
  } finally {
    if (isRoot) process.seteuid?.(0);
  }
}

describe('a full disk', () => {
  const place = folder();

  it('stops no server: what cannot be kept is refused, all that was acknowledged is there, and it goes on', async () => {
    const store = await openStore({ dataDir: place });
    const server = await testServer(store);
    const { id } = await openedCase(server, fernhollow);
    const pages = await sql<{ page_count: number }>`pragma page_count`.execute(store.db);
    const limit = (n: number) => sql.raw(`pragma max_page_count = ${n}`).execute(store.db);
    await limit(pages.rows[0]!.page_count + 4);
    const statuses: number[] = [];
    const send = () =>
      server.send(
        'POST',
        `/api/cases/${id}/answers`,
        answerTo('plant', { ...fernhollow, name: 'x'.repeat(4000) }),
      );
    for (let i = 0; i < 30; i++) statuses.push((await send()).status);
    expect(new Set(statuses)).toEqual(new Set([200, 503]));
    const kept = await server.send('GET', `/api/cases/${id}`);
    expect(kept.body.case.answers).toHaveLength(statuses.filter((one) => one === 200).length);
    await limit(1_000_000);
    expect((await send()).status).toBe(200);
    await store.close();
  });

  // the system's limit on the size of files stands in for a disk without room: both end a write half-way
  it('leaves no half-written draft of a rule set', () => {
    const to = join(folder(), '2030-01-01');
    const bin = join(import.meta.dirname, '..', '..', 'bin', 'gaugewalk.js');
    const command = `ulimit -f 8; exec "${process.execPath}" "${bin}" rules draft 2030-01-01 --to "${to}"`;
    const { status, stderr } = spawnSync('bash', ['-c', command], { encoding: 'utf8' });
    expect(stderr).toMatch(/2030-01-01: cannot be written: .+\n$/);
    expect(status).toBe(2);
    expect([existsSync(to), existsSync(`${to}.part`)]).toEqual([false, false]);
  });
});

describe('a folder that may only be read', () => {
  it('is told by the variable to look at', async () => {
    const dataDir = folder();
    chmodSync(dataDir, 0o555);
    const { where, message } = await asNobody(() => refusalOf(join(dataDir, 'data')));
    expect([where, message]).toEqual(['DATA_DIR', expect.stringContaining('EACCES')]);
    chmodSync(dataDir, 0o755);
  });

  it('is told when a file is to be written there, and keeps the file that was there', async () => {
    const place = folder();
    const path = join(place, 'case.json');
    writeFileSync(path, 'old');
    chmodSync(place, 0o555);
    const { writeText } = processWorld();
    const write = () => writeText(path, 'new');
    await asNobody(() => expect(write).toThrow(/cannot be written: .+ not allowed/));
    chmodSync(place, 0o755);
    expect([readFileSync(path, 'utf8'), existsSync(`${path}.part`)]).toEqual(['old', false]);
  });
});

describe('a damaged database file', () => {
  it('that is none is refused, with what to do, and left as it was', async () => {
    const dataDir = folder();
    const file = join(dataDir, 'gaugewalk.sqlite');
    writeFileSync(file, 'not a database at all '.repeat(500));
    const before = readFileSync(file);
    const { where, message } = await refusalOf(dataDir);
    expect(where).toBe('DATA_DIR');
    expect(message).toMatch(/is damaged .*put a copy/);
    expect(readFileSync(file).equals(before)).toBe(true);
  });

  it('with ruined pages gives a problem that tells nothing of the inside, and its cause in the log', async () => {
    const dataDir = folder();
    const first = await openStore({ dataDir });
    const { id } = await openedCase(await testServer(first), fernhollow);
    await first.close();
    const file = join(dataDir, 'gaugewalk.sqlite');
    const size = readFileSync(file).length;
    const handle = openSync(file, 'r+');
    // all but the first pages, which hold the names of the tables
    writeSync(handle, Buffer.alloc(size - 24_576, 0xa5), 0, size - 24_576, 24_576);
    const outcome = await openStore({ dataDir }).then(
      async (store) => {
        const server = await testServer(store);
        const { status, body } = await server.send('GET', `/api/cases/${id}`);
        expect(JSON.stringify(body)).not.toMatch(/SQLITE|malformed|select/i);
        expect(server.logged()).toContain('SQLITE_CORRUPT');
        await store.close();
        return status;
      },
      (error: unknown) => String(error),
    );
    expect(String(outcome)).toMatch(/^500$|malformed|damaged/);
  });
});

onBothStores('a clock that jumps', (place) => {
  const open = storeOpener(place);

  it('keeps the order of answers and locks nobody out', async () => {
    let now = new Date('2026-11-25T10:00:00Z');
    const limits = { casesPerTenMinutes: 2, signInsPerTenMinutes: 2 };
    const server = await testServer(await open(), { clock: () => now, limits });
    const { id } = await openedCase(server, fernhollow);
    const days = ['2031-01-01', '2020-02-29', '2026-11-25', '1970-01-02'];
    for (const [i, day] of days.entries()) {
      now = new Date(`${day}T10:00:00Z`);
      const answer = answerTo('smell', ['none', 'earthy', 'chlorine', 'none'][i], { after: i });
      const { status } = await server.send('POST', `/api/cases/${id}/answers`, answer);
      expect(status).toBe(200);
      // each time under a new clock, up to the limit
      expect((await server.send('POST', '/api/cases', {})).status).toBe(201);
    }
    const { body } = await server.send('GET', `/api/cases/${id}`);
    const values = body.case.answers.map(({ value }: { value: string }) => value);
    expect(values).toEqual(['none', 'earthy', 'chlorine', 'none']);
  });
});

describe('a store that goes away', () => {
  it('for another’s writing is waited for', async () => {
    const dataDir = folder();
    const [one, other] = [await openStore({ dataDir }), await openStore({ dataDir })];
    const server = await testServer(one);
    const { id } = await openedCase(server, fernhollow);
    const held = other.write(() => new Promise((resolve) => setTimeout(resolve, 400)));
    const answer = answerTo('smell', 'none');
    expect((await server.send('POST', `/api/cases/${id}/answers`, answer)).status).toBe(200);
    await held;
    await Promise.all([one.close(), other.close()]);
  });

  it('is 503 meanwhile, also for those it was at work for, and all goes on when it is back', async () => {
    const postgres = await startPostgres();
    const databaseUrl = await postgres.newDatabase();
    const store = await openStore({ dataDir: folder(), databaseUrl, pollMs: 50 });
    const server = await testServer(store);
    const { id } = await openedCase(server, fernhollow);
    const answer = answerTo('smell', 'none');
    const send = () => server.send('POST', `/api/cases/${id}/answers`, answer);
    const atWork = store.write((trx) => sql`select pg_sleep(20)`.execute(trx)).catch(String);
    await new Promise((resolve) => setTimeout(resolve, 200));
    await postgres.down();
    expect(await atWork).toMatch(/terminat/i);
    expect([(await send()).status, (await send()).status]).toEqual([503, 503]);
    await postgres.up();
    expect([(await send()).status, (await send()).status]).toEqual([200, 200]);
    const { body } = await server.send('GET', `/api/cases/${id}`);
    expect(body.case.answers).toHaveLength(1);
    await store.close();
    await postgres.stop();
  });
});
