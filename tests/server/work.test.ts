import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { jobsUnderWay } from '../../shared/work/log.ts';
import { onBothStores, storeOpener } from '../store/stores.ts';
import { type Desk, deskOn } from './desk-people.ts';
import { fernhollow } from './stand-in-judge.ts';
import { openedCase, type TestServer } from './test-server.ts';

const device = randomUUID();

const entryOf = (event: unknown, more: object = {}) => ({
  ...{ eventId: randomUUID(), follows: null as string | null },
  ...{ job: 'change-sediment', part: 'sed-1', device, event },
  ...more,
});
const at = '2026-11-25T10:00:00+01:00';
const tick = (more: object = {}) => entryOf({ step: 'tell-house', at }, more);

onBothStores('what happens at the jobs of a case', (place) => {
  const open = storeOpener(place);
  let desk: Desk;
  let server: TestServer;
  beforeAll(async () => {
    desk = await deskOn(await open());
    server = desk.server;
  });
  const post = (id: string, body: unknown) => server.send('POST', `/api/cases/${id}/work`, body);
  const workOf = async (id: string) =>
    (await server.send('GET', `/api/cases/${id}`)).body.case.work;

  it('is kept in the order it came, as sent, and told to whoever reads the case', async () => {
    const { id, readId } = await openedCase(server, fernhollow);
    const first = tick();
    const second = entryOf({ step: 'lock-pump', answer: 'locked', input: 'a note', at });
    const end = entryOf(null, { follows: second.eventId });
    for (const entry of [first, second, end]) expect((await post(id, entry)).status).toBe(200);
    for (const link of [id, readId]) {
      const work = await workOf(link);
      expect(work).toEqual(
        [first, second, end].map((entry) => ({
          ...entry,
          ...{ by: null, receivedAt: expect.any(String) },
        })),
      );
    }
  });

  it('gives back what the sender has not seen', async () => {
    const { id } = await openedCase(server, fernhollow);
    const [mine, theirs, later] = [tick(), tick(), tick()];
    await post(id, mine);
    await post(id, theirs);
    const { body } = await post(id, { ...later, seen: 1 });
    expect(body.count).toBe(3);
    expect(body.work.map(({ eventId }: { eventId: string }) => eventId)).toEqual([
      theirs.eventId,
      later.eventId,
    ]);
  });

  it('takes the same event twice as one, and refuses another under its id', async () => {
    const { id } = await openedCase(server, fernhollow);
    const entry = tick();
    await Promise.all([post(id, entry), post(id, entry), post(id, entry)]);
    expect((await post(id, { ...entry, seen: 1 })).body).toEqual({ count: 1, work: [] });
    const { status, body } = await post(id, { ...entry, event: { lost: 'locked' } });
    expect([status, body.type]).toEqual([409, '/problems/event-id-used']);
    expect(await workOf(id)).toHaveLength(1);
  });

  it('keeps all that two devices send at the same moment, each once', async () => {
    const { id } = await openedCase(server, fernhollow);
    const entries = Array.from({ length: 12 }, () => tick({ device: randomUUID() }));
    await Promise.all(entries.map((entry) => post(id, entry)));
    const work: { eventId: string }[] = await workOf(id);
    const ids = (list: readonly { eventId: string }[]) => list.map(({ eventId }) => eventId);
    expect(ids(work).sort()).toEqual(ids(entries).sort());
  });

  it.each<[string, object, string, string]>([
    ['an unknown field', { who: 'me' }, 'who', 'unknown field'],
    ['an event of two kinds', { event: { step: 'a', lost: 'b' } }, 'event', 'exactly one of step'],
    ['an event of none', { event: { at } }, 'event', 'exactly one of step'],
    ['an answer to nothing', { event: { lost: 'b', answer: 'c' } }, 'event.answer', 'a step only'],
    ['a time without an offset', { event: { step: 'a', at: '2026-11-25' } }, 'event.at', 'offset'],
    ['a job that is no id', { job: 'Change It' }, 'job', 'small letters'],
    ['no device', { device: undefined }, 'device', 'is missing'],
    ['a long note', { event: { step: 'a', input: 'x'.repeat(10_001) } }, 'event', 'at most 10000'],
  ])('refuses %s, names the place and stores nothing', async (_, more, where, says) => {
    const { id } = await openedCase(server, fernhollow);
    const { status, body } = await post(id, tick(more));
    expect([status, body.where]).toEqual([422, where]);
    expect(body.detail).toContain(says);
    expect(await workOf(id)).toEqual([]);
  });

  it('is not taken by a link that only reads, nor once the link is withdrawn', async () => {
    const { id, readId } = await openedCase(server, fernhollow);
    expect((await post(readId, tick())).status).toBe(403);
    await server.send('POST', `/api/cases/${id}/withdraw`, { strengths: ['continue'] });
    expect((await post(id, tick())).status).toBe(410);
  });

  it('is bounded in number', async () => {
    const { id } = await openedCase(server, fernhollow);
    await post(id, tick());
    const { db } = server.deps.store;
    const row = await db
      .selectFrom('work_events')
      .selectAll()
      .orderBy('received_at', 'desc')
      .executeTakeFirstOrThrow();
    for (let from = 2; from <= 2000; from += 500) {
      const positions = Array.from({ length: Math.min(500, 2001 - from) }, (_, i) => from + i);
      const rows = positions.map((position) => ({ ...row, position, event_id: randomUUID() }));
      await db.insertInto('work_events').values(rows).execute();
    }
    const { status, body } = await post(id, tick());
    expect([status, body.type]).toEqual([409, '/problems/work-full']);
  });

  describe('at the desk', () => {
    it('is told with who did it, which no link tells', async () => {
      const { id, ref } = await desk.namedCase(`Work ${randomUUID()}`);
      await desk.as('owner', 'POST', `/api/desk/cases/${ref}/assign`, { to: desk.ids.technician });
      const path = `/api/desk/cases/${ref}`;
      const { status, body } = await desk.as('technician', 'POST', `${path}/work`, tick());
      expect(status).toBe(200);
      expect(body.work).toMatchObject([{ by: 'The technician' }]);
      await post(id, tick());
      const seen = (await desk.as('agent', 'GET', path)).body.case.work;
      expect(seen.map(({ by }: { by: string | null }) => by)).toEqual(['The technician', null]);
      expect((await workOf(id)).map(({ by }: { by: string | null }) => by)).toEqual([null, null]);
    });

    it('is taken from nobody who may not see the case', async () => {
      const { ref } = await desk.namedCase(`Work ${randomUUID()}`);
      const path = `/api/desk/cases/${ref}/work`;
      expect((await desk.as('technician', 'POST', path, tick())).status).toBe(404);
      expect((await server.send('POST', path, tick())).status).toBe(401);
    });

    it('stands in the list until the job is over', async () => {
      const name = `Work ${randomUUID()}`;
      const { id, ref } = await desk.namedCase(name);
      const listed = async () => {
        const { body } = await desk.as('agent', 'GET', `/api/desk/cases?search=${name.slice(5)}`);
        return body.cases[0].atWork;
      };
      expect(await listed()).toBeNull();
      const begun = tick();
      await post(id, begun);
      expect(await listed()).toEqual({ job: 'change-sediment', part: 'sed-1', at });
      expect((await desk.as('agent', 'GET', `/api/desk/cases/${ref}`)).body.desk.atWork).toEqual(
        await listed(),
      );
      // what came too late, or ends a job it did not see begun, is not the last thing done there
      const late = '2026-11-25T11:00:00+01:00';
      await post(id, entryOf({ step: 'tell-house', at: late }, { device: randomUUID() }));
      await post(id, entryOf(null, { device: randomUUID() }));
      expect(await listed()).toEqual({ job: 'change-sediment', part: 'sed-1', at });
      await post(id, entryOf(null, { follows: begun.eventId }));
      expect(await listed()).toBeNull();
    });

    it('goes with the case when it is erased, and stays without the name of who is removed', async () => {
      const { id, ref } = await desk.namedCase(`Work ${randomUUID()}`);
      const person = { name: 'Gone', email: 'gone@example.org', role: 'agent' as const };
      const added = await server.deps.auth.addPerson({ ...person, password: 'a long password' });
      await desk.as('agent', 'POST', `/api/desk/cases/${ref}/work`, tick());
      const { db } = server.deps.store;
      const rows = () =>
        db.selectFrom('work_events').selectAll().where('case_ref', '=', ref).execute();
      await db
        .updateTable('work_events')
        .set({ person: added.id })
        .where('case_ref', '=', ref)
        .execute();
      await desk.as('owner', 'DELETE', `/api/desk/people/${added.id}`);
      expect(await rows()).toMatchObject([{ person: null }]);
      await server.send('DELETE', `/api/cases/${id}`);
      expect(await rows()).toEqual([]);
    });
  });

  it('can be gone on with from what the server tells alone', async () => {
    const { id } = await openedCase(server, fernhollow);
    const begun = tick();
    await post(id, begun);
    await post(id, entryOf({ step: 'parts-ready', at }, { follows: begun.eventId }));
    // somebody else, who has not looked: kept, and it does not count
    await post(id, tick({ follows: begun.eventId, device: randomUUID() }));
    const [job] = jobsUnderWay(await workOf(id));
    expect(job).toMatchObject({ job: 'change-sediment', part: 'sed-1', device });
    expect(job?.counted).toHaveLength(2);
  });
});
