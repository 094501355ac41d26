import { randomUUID } from 'node:crypto';
import { setTimeout as pause } from 'node:timers/promises';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { full, measured } from '../full.ts';
import { seeded } from '../seeded.ts';
import { onBothStores } from '../store/stores.ts';
import { buildServer, type ServerProcess, spawnServer } from './spawn.ts';

/** Whole: 100 kills a store; otherwise 4. */
const kills = full ? 100 : 4;
const clients = 8;
const seed = 20261125;

const post = (url: string, body: unknown): Promise<Response> =>
  fetch(url, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });

interface Stored {
  readonly answerId: string;
  readonly value: unknown;
}

const storedAt = async (url: string, id: string): Promise<Stored[]> =>
  ((await (await fetch(`${url}/api/cases/${id}`)).json()) as { case: { answers: Stored[] } }).case
    .answers;

onBothStores(`${kills} kill -9 under load`, (place) => {
  let built: Awaited<ReturnType<typeof buildServer>>;
  beforeAll(async () => {
    built = await buildServer();
  }, 60_000);
  afterAll(() => built.remove());

  it(`lose no acknowledged answer and store none twice (seed ${seed})`, async () => {
    const random = seeded(seed);
    const where = await place.newPlace();
    let server: ServerProcess = await spawnServer(built.file, where);
    let acknowledgedInAll = 0;
    let cutOff = 0;

    for (let kill = 0; kill < kills; kill += 1) {
      const { id } = (await (await post(`${server.url}/api/cases`, {})).json()) as { id: string };
      const sent: object[] = [];
      const acknowledged = new Set<string>();
      let killed = false;
      const client = async (): Promise<void> => {
        while (!killed) {
          const answer = { answerId: randomUUID(), question: 'smell', value: randomUUID() };
          sent.push(answer);
          try {
            const response = await post(`${server.url}/api/cases/${id}/answers`, answer);
            await response.arrayBuffer(); // only a whole answer counts as one
            if (response.status === 200) acknowledged.add(answer.answerId);
          } catch {
            return; // cut off by the kill
          }
        }
      };
      const running = Array.from({ length: clients }, client);
      // By answers rather than by the clock, so that a slow machine is killed in the midst of work as well.
      const enough = 1 + Math.floor(random() * 30);
      while (acknowledged.size < enough) await pause(1);
      await pause(random() * 20);
      const dead = server.end('SIGKILL');
      killed = true;
      await Promise.all([dead, ...running]);

      server = await spawnServer(built.file, where);
      const stored = await storedAt(server.url, id);
      const ids = stored.map(({ answerId }) => answerId);
      expect(new Set(ids).size, `kill ${kill}: none twice`).toBe(ids.length);
      expect(ids, `kill ${kill}: none lost`).toEqual(expect.arrayContaining([...acknowledged]));

      // What a client does when it does not know: it sends everything again, and each answer is there once.
      for (const answer of sent)
        expect((await post(`${server.url}/api/cases/${id}/answers`, answer)).status).toBe(200);
      const after = await storedAt(server.url, id);
      expect(after).toHaveLength(sent.length);
      expect(after.slice(0, stored.length)).toEqual(stored); // and what was stored kept its place
      acknowledgedInAll += acknowledged.size;
      cutOff += sent.length - acknowledged.size;
    }

    expect(await server.end('SIGTERM')).toBe(0);
    // The kills came in the midst of work, or this test would prove nothing.
    expect(acknowledgedInAll).toBeGreaterThan(2 * kills);
    expect(cutOff).toBeGreaterThan(kills / 2);
    measured(
      `answers acknowledged before a kill, none lost or twice (${place.kind})`,
      `${acknowledgedInAll} in ${kills}`,
      'kills',
      'none lost',
    );
  }, 900_000);

  it('end in order when asked: SIGTERM lets a request finish and closes live connections', async () => {
    const server = await spawnServer(built.file, await place.newPlace());
    const { id } = (await (await post(`${server.url}/api/cases`, {})).json()) as { id: string };
    const live = await fetch(`${server.url}/api/cases/${id}/events`);
    const reader = live.body!.getReader();
    await reader.read();
    const asked = performance.now();
    const last = post(`${server.url}/api/cases/${id}/answers`, {
      answerId: randomUUID(),
      question: 'smell',
      value: 'none',
    });
    await pause(5);
    const ended = server.end('SIGTERM');
    expect((await last).status).toBe(200);
    for (;;) if ((await reader.read()).done) break;
    expect(await ended).toBe(0);
    expect(performance.now() - asked).toBeLessThan(2000);
  }, 30_000);
});
