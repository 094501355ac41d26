import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { onBothStores } from '../store/stores.ts';
import { buildServer, type ServerProcess, spawnServer } from './spawn.ts';

const clients = 50;
const answersEach = 8;

interface Stored {
  readonly answerId: string;
}

const post = (url: string, body: unknown): Promise<Response> =>
  fetch(url, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });

onBothStores(`two servers and ${clients} clients on one case`, (place) => {
  let built: Awaited<ReturnType<typeof buildServer>>;
  let servers: ServerProcess[] = [];
  beforeAll(async () => {
    built = await buildServer();
    const where = await place.newPlace();
    servers = await Promise.all([spawnServer(built.file, where), spawnServer(built.file, where)]);
  }, 60_000);
  afterAll(async () => {
    await Promise.all(servers.map((server) => server.end('SIGTERM')));
    built.remove();
  });

  it('end with one order, each answer once, each client’s in the order it sent them', async () => {
    const url = (i: number): string => servers[i % 2]!.url;
    const { id } = (await (await post(`${url(0)}/api/cases`, {})).json()) as { id: string };
    let refused = 0;

    /** Sends its answers one after the other; odd clients say what they have seen and try again after a 409. */
    const client = async (number: number): Promise<string[]> => {
      const mine: string[] = [];
      let after = 0;
      for (let n = 0; n < answersEach; n += 1) {
        const answer = { answerId: randomUUID(), question: 'smell', value: `${number}.${n}` };
        for (let tries = 0; ; tries += 1) {
          const response = await post(`${url(number + tries)}/api/cases/${id}/answers`, {
            ...answer,
            ...(number % 10 === 1 && { after }),
          });
          if (response.status === 200) {
            after = Number(response.headers.get('answer-count'));
            await response.arrayBuffer();
            break;
          }
          expect(response.status).toBe(409);
          const problem = (await response.json()) as { count: number; answers: Stored[] };
          expect(problem.answers).toHaveLength(problem.count - after); // what came between, all of it
          after = problem.count;
          refused += 1;
        }
        mine.push(answer.answerId);
      }
      return mine;
    };
    const sent = await Promise.all(Array.from({ length: clients }, (_, i) => client(i)));

    const read = async (i: number): Promise<string[]> => {
      const body = (await (await fetch(`${url(i)}/api/cases/${id}`)).json()) as {
        case: { answers: Stored[] };
      };
      return body.case.answers.map(({ answerId }) => answerId);
    };
    const order = await read(0);
    expect(await read(1)).toEqual(order);
    expect(order).toHaveLength(clients * answersEach);
    expect(new Set(order)).toEqual(new Set(sent.flat()));
    for (const mine of sent) {
      const places = mine.map((answerId) => order.indexOf(answerId));
      expect(places).toEqual([...places].sort((a, b) => a - b));
    }
    expect(refused).toBeGreaterThan(0); // they did meet
    for (const server of servers) expect(server.logged()).not.toContain('"level":50');
  }, 120_000);
});
