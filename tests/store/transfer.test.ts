import { createHash, randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openStore, type Store } from '../../src/store/store.ts';
import { exportStore, importStore } from '../../src/store/transfer.ts';
import { fernhollow } from '../server/stand-in-judge.ts';
import { answerTo, openedCase, type TestServer, testServer } from '../server/test-server.ts';
import { startPostgres, type TestPostgres } from './postgres.ts';

async function exported(store: Store): Promise<string> {
  let text = '';
  await exportStore(store, (line) => {
    text += line;
  });
  return text;
}

async function* linesOf(text: string): AsyncGenerator<string> {
  yield* text.replace(/\n$/, '').split('\n');
}

const checksum = (text: string): string => createHash('sha256').update(text).digest('hex');

describe('export and import', () => {
  let postgres: TestPostgres;
  let filled: Store;
  let server: TestServer;
  const links: { id: string; readId: string }[] = [];
  let text: string;
  const opened: Store[] = [];
  const emptyStore = async (kind: 'sqlite' | 'postgres'): Promise<Store> => {
    const databaseUrl = kind === 'postgres' ? await postgres.newDatabase() : undefined;
    const store = await openStore({ dataDir: ':memory:', databaseUrl });
    opened.push(store);
    return store;
  };

  beforeAll(async () => {
    postgres = await startPostgres();
    filled = await emptyStore('sqlite');
    server = await testServer(filled);
    const person = {
      name: 'Owner',
      email: 'owner@example.org',
      role: 'owner' as const,
      password: 'a long enough password',
    };
    const { id: owner } = await server.deps.auth.addPerson(person);
    const signedIn = await server.send('POST', '/api/desk/sign-in', {
      email: person.email,
      password: person.password,
    });
    const cookie = signedIn.headers
      .getSetCookie()
      .map((line) => line.split(';')[0])
      .join('; ');
    const plant = (await server.send('POST', '/api/plants', { plant: fernhollow })).body;
    // more rows than one page of the export, and texts that are hard to carry
    for (let i = 0; i < 12; i += 1) {
      const link = await openedCase(server, {
        ...fernhollow,
        name: `Case ${i} “Äöß” 💧 \\ "quoted"`,
      });
      links.push(link);
      for (let n = 0; n < 60; n += 1)
        await server.send(
          'POST',
          `/api/cases/${link.id}/answers`,
          answerTo('smell', `\u0000 ${n}\n`),
        );
    }
    await server.send('POST', '/api/cases', { plantId: plant.id });
    await server.send('POST', `/api/cases/${links[1]!.id}/withdraw`, { strengths: ['read'] });
    await server.send('DELETE', `/api/cases/${links[2]!.id}`);
    const { body } = await server.send('GET', '/api/desk/cases', undefined, { cookie });
    const { ref } = body.cases[0];
    await server.send('POST', `/api/desk/cases/${ref}/notes`, { text: 'a note' }, { cookie });
    await server.send('POST', `/api/desk/cases/${ref}/assign`, { to: owner }, { cookie });
    await server.send('PATCH', `/api/desk/cases/${ref}/call`, { callBack: '555 0103' }, { cookie });
    const happened = { follows: null, job: 'flush-line', part: null, device: randomUUID() };
    for (const event of [{ step: 'tell-house', input: '\u0000 “note”' }, null]) {
      const entry = { eventId: randomUUID(), ...happened, event };
      await server.send('POST', `/api/desk/cases/${ref}/work`, entry, { cookie });
      await server.send('POST', `/api/cases/${links[0]!.id}/work`, entry);
    }
    await server.send(
      'POST',
      `/api/desk/cases/${ref}/rejudge`,
      { ruleSet: '2026-01-01' },
      { cookie },
    );
    text = await exported(filled);
  }, 120_000);
  afterAll(async () => {
    await Promise.all(opened.map((store) => store.close()));
    await postgres.stop();
  });

  it('covers every table but what means nothing elsewhere', () => {
    const tables = new Set(
      text
        .trim()
        .split('\n')
        .slice(1)
        .map((line) => JSON.parse(line).table),
    );
    const all = [
      'user',
      'account',
      'plants',
      'cases',
      'answers',
      'work_events',
      'links',
      'notes',
      'calls',
      'rejudgings',
    ];
    expect(tables).toEqual(new Set(all));
    expect(text.split('\n').length).toBeGreaterThan(700);
  });

  it('gives the same bytes again from SQLite to PostgreSQL and back', async () => {
    const inPostgres = await emptyStore('postgres');
    const rows = await importStore(inPostgres, linesOf(text), 'file');
    expect(rows).toBe(text.trim().split('\n').length - 1);
    const again = await exported(inPostgres);
    expect(checksum(again)).toBe(checksum(text));
    const back = await emptyStore('sqlite');
    await importStore(back, linesOf(again), 'file');
    expect(checksum(await exported(back))).toBe(checksum(text));
  });

  it('keeps links, withdrawals, views and sign-in as they were', async () => {
    const store = await emptyStore('postgres');
    await importStore(store, linesOf(text), 'file');
    const moved = await testServer(store);
    for (const { id, readId } of links.slice(0, 4)) {
      for (const link of [id, readId]) {
        const [before, after] = [
          await server.send('GET', `/api/cases/${link}`),
          await moved.send('GET', `/api/cases/${link}`),
        ];
        expect([after.status, after.body]).toEqual([before.status, before.body]);
      }
    }
    const signIn = { email: 'owner@example.org', password: 'a long enough password' };
    expect((await moved.send('POST', '/api/desk/sign-in', signIn)).status).toBe(200);
  });

  it('holds no link: who has the file cannot open a case', () => {
    for (const { id, readId } of links)
      for (const link of [id, readId]) expect(text).not.toContain(link);
  });

  const cell = randomUUID();
  it.each<[string, () => string, string]>([
    ['a store that is not empty', () => text, 'holds something already'],
    ['an empty file', () => '', 'first line'],
    ['another file', () => '{"name":"a plant"}', 'first line'],
    ['a newer export', () => '{"gaugewalk":"export","version":2}', 'first line'],
    ['a line cut short', () => text.slice(0, text.length / 2), 'line of an export'],
    ['a line twice', () => text + text.trim().split('\n').at(-1), 'contradicts'],
    ['an unknown column', () => text.replace('"search_text"', `"x${cell}"`), 'does not fit'],
  ])('refuses %s and stores nothing of it', async (name, file, says) => {
    const store = name.startsWith('a store') ? filled : await emptyStore('sqlite');
    const before = await exported(store);
    await expect(importStore(store, linesOf(file()), 'file')).rejects.toThrow(says);
    expect(await exported(store)).toBe(before);
  });
});
