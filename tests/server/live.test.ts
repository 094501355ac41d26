import { setTimeout as pause } from 'node:timers/promises';
import { describe, expect, it } from 'vitest';
import { createChanges } from '../../src/store/changes.ts';
import { onBothStores, storeOpener } from '../store/stores.ts';
import { deskOn } from './desk-people.ts';
import { fernhollow } from './stand-in-judge.ts';
import { answerTo, openedCase, type TestServer, testServer } from './test-server.ts';

interface Event {
  readonly event: string;
  readonly id: string | undefined;
  // biome-ignore lint/suspicious/noExplicitAny: tests look into whatever JSON came back
  readonly data: any;
}

/** Reads server-sent events from a response, one at a time, after the HTML standard's event stream format. */
async function* eventsOf(response: Response): AsyncGenerator<Event> {
  const reader = response.body!.pipeThrough(new TextDecoderStream()).getReader();
  let text = '';
  for (;;) {
    const { value, done } = await reader.read();
    if (done) return;
    text += value;
    for (let end = text.indexOf('\n\n'); end >= 0; end = text.indexOf('\n\n')) {
      const lines = text.slice(0, end).split('\n');
      text = text.slice(end + 2);
      const field = (name: string) =>
        lines.find((line) => line.startsWith(`${name}: `))?.slice(name.length + 2);
      const event = field('event');
      if (event) yield { event, id: field('id'), data: JSON.parse(field('data') ?? 'null') };
    }
  }
}

onBothStores('a case as it happens', (place) => {
  const open = storeOpener(place);

  const watch = async (
    server: TestServer,
    link: string,
    query = '',
    headers: Record<string, string> = {},
  ) => {
    const response = await server.app.request(`/api/cases/${link}/events${query}`, { headers });
    expect(response.headers.get('content-type')).toContain('text/event-stream');
    const events = eventsOf(response);
    const next = async (): Promise<Event> => (await events.next()).value as Event;
    return { next, stop: () => events.return(undefined) };
  };

  it('arrives from another server before the same store, in order and once each', async () => {
    const where = await place.newPlace();
    const [one, two] = [await testServer(await open(where)), await testServer(await open(where))];
    const { id, readId } = await openedCase(one, fernhollow);
    const { next, stop } = await watch(two, readId);
    expect((await next()).data).toMatchObject({ count: 0, answers: [] });
    const sent = [
      answerTo('smell', 'none'),
      answerTo('complaint', ['weak']),
      answerTo('danger', ['shock']),
    ];
    const heard: unknown[] = [];
    for (const answer of sent) {
      await one.send('POST', `/api/cases/${id}/answers`, answer);
      const { event, data } = await next();
      expect(event).toBe('change');
      heard.push(...data.answers);
      expect(data.view.said).toHaveLength(heard.length);
    }
    expect(heard).toEqual(sent);
    await stop();
  });

  it('goes on after a lost connection from the last event on', async () => {
    const server = await testServer(await open());
    const { id } = await openedCase(server, fernhollow);
    const answers = [answerTo('smell', 'none'), answerTo('complaint', ['weak'])];
    for (const answer of answers) await server.send('POST', `/api/cases/${id}/answers`, answer);
    for (const [query, headers] of [
      ['', { 'last-event-id': '1' }],
      ['?seen=1', {}],
    ] as const) {
      const { next, stop } = await watch(server, id, query, headers);
      const { id: eventId, data } = await next();
      expect([eventId, data.answers]).toEqual(['2', [answers[1]]]);
      await stop();
    }
  });

  it('tells what happens at a job as it happens, once each, and at the desk who did it', async () => {
    const { server, as, cookies, namedCase } = await deskOn(await open());
    const { id, ref } = await namedCase('a job that is watched');
    const device = 'a2b0c1d2-93ad-4a55-9a2b-0a3d0ef1d2ab';
    const entry = (n: number, event: object | null) => ({
      eventId: `00000000-0000-4000-8000-00000000000${n}`,
      ...{ follows: null, job: 'flush-line', part: null, device, event },
    });
    const path = `/api/desk/cases/${ref}`;
    await as('agent', 'POST', `${path}/work`, entry(1, { step: 'tell-house' }));
    const linked = await watch(server, id, '?work=1');
    const headers = { cookie: cookies.agent };
    const atDesk = eventsOf(await server.app.request(`${path}/events`, { headers }));
    expect((await linked.next()).data).toMatchObject({ workCount: 1, work: [], answers: [] });
    expect((await atDesk.next()).value?.data.work).toMatchObject([{ by: 'The agent' }]);
    await as('agent', 'POST', `${path}/work`, entry(2, null));
    const heard = (await linked.next()).data;
    expect(heard).toMatchObject({ workCount: 2, work: [{ ...entry(2, null), by: null }] });
    expect((await atDesk.next()).value?.data.work).toMatchObject([{ by: 'The agent' }]);
    await linked.stop();
    await atDesk.return(undefined);
  });

  it('ends when the link is withdrawn', async () => {
    const server = await testServer(await open());
    const { id, readId } = await openedCase(server, fernhollow);
    const { next } = await watch(server, readId);
    await next();
    await server.send('POST', `/api/cases/${id}/withdraw`, { strengths: ['read'] });
    expect((await next()).event).toBe('withdrawn');
  });

  it('ends at the desk as withdrawn when the case is taken, without a word when the sign-in ends', async () => {
    const { server, ids, cookies, as, namedCase } = await deskOn(await open());
    const { ref } = await namedCase('a case watched at the desk');
    await as('agent', 'POST', `/api/desk/cases/${ref}/assign`, { to: ids.technician });
    const path = `/api/desk/cases/${ref}/events`;
    const watched = async (role: 'agent' | 'technician') => {
      const headers = { cookie: cookies[role] };
      const events = eventsOf(await server.app.request(path, { headers }));
      await events.next();
      return events;
    };
    const [agents, technicians] = [await watched('agent'), await watched('technician')];
    await as('agent', 'POST', '/api/desk/sign-out');
    await as('owner', 'POST', `/api/desk/cases/${ref}/assign`, { to: null });
    expect((await technicians.next()).value?.event).toBe('withdrawn');
    expect((await agents.next()).done).toBe(true);
  });

  it('is refused where too many watch already, and however many they are', async () => {
    const server = await testServer(await open());
    const { id } = await openedCase(server, fernhollow);
    for (const watching of [2000, 2001]) {
      server.deps.metrics.watching.set(watching);
      expect((await server.send('GET', `/api/cases/${id}/events`)).status).toBe(503);
    }
    server.deps.metrics.watching.set(1999);
    const { next, stop } = await watch(server, id);
    expect((await next()).event).toBe('change');
    await stop();
  });

  it('ends when the server stops', async () => {
    const stopping = new AbortController();
    const server = await testServer(await open(), { stopping: stopping.signal });
    const { id } = await openedCase(server, fernhollow);
    const { next } = await watch(server, id);
    await next();
    stopping.abort();
    expect(await next()).toBeUndefined();
    const watching = (await server.deps.metrics.watching.get()).values[0]?.value;
    expect(watching).toBe(0);
  });
});

describe('polling for changes', () => {
  it('finds a change made elsewhere though nobody tells of it', async () => {
    const { openStore } = await import('../../src/store/store.ts');
    const store = await openStore({ dataDir: ':memory:' });
    const server = await testServer(store);
    const { id } = await openedCase(server, fernhollow);
    const { ref } = await store.db.selectFrom('cases').select('ref').executeTakeFirstOrThrow();
    const changes = createChanges(store.db, 10, () => undefined);
    let heard = 0;
    const unwatch = changes.watch(ref, () => {
      heard += 1;
    });
    await pause(60);
    const before = heard;
    await pause(60);
    expect(heard).toBe(before); // quiet while nothing happens
    await server.send('POST', `/api/cases/${id}/answers`, answerTo('smell', 'none'));
    await pause(60);
    expect(heard).toBe(before + 1);
    unwatch();
    changes.stop();
    await store.close();
  });
});
