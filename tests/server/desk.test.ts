import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { onBothStores, storeOpener } from '../store/stores.ts';
import { type Desk, deskOn, PASSWORD } from './desk-people.ts';
import { fernhollow } from './stand-in-judge.ts';
import { answerTo, type TestServer } from './test-server.ts';

onBothStores('the desk', (place) => {
  const open = storeOpener(place);
  let server: TestServer;
  let ids: Desk['ids'];
  let as: Desk['as'];
  let cookies: Desk['cookies'];
  let namedCase: Desk['namedCase'];
  beforeAll(async () => {
    ({ server, ids, cookies, as, namedCase } = await deskOn(await open()));
  });

  describe('the list', () => {
    it('filters by state, leading cause, person and words, and pages without loss', async () => {
      const tag = randomUUID();
      const made = [];
      for (let i = 0; i < 7; i += 1) made.push(await namedCase(`${tag} Ähre ${i}`));
      await server.send('POST', `/api/cases/${made[0]!.id}/answers`, answerTo('danger', ['shock']));
      await server.send(
        'POST',
        `/api/cases/${made[1]!.id}/answers`,
        answerTo('pump-open', 'silent'),
      );
      await as('agent', 'POST', `/api/desk/cases/${made[2]!.ref}/assign`, { to: ids.agent });

      const names = async (query: string): Promise<string[]> => {
        const { status, body } = await as('agent', 'GET', `/api/desk/cases?search=${tag}&${query}`);
        expect(status).toBe(200);
        return body.cases.map(({ plantName }: { plantName: string }) => plantName.slice(-1)).sort();
      };
      expect(await names('')).toEqual(['0', '1', '2', '3', '4', '5', '6']);
      expect(await names('state=stopped')).toEqual(['0']);
      const { body: all } = await as('agent', 'GET', `/api/desk/cases?search=${tag}`);
      const urgent = all.cases.filter((one: { priority: string }) => one.priority === 'urgent');
      expect(urgent.map(({ ref }: { ref: string }) => ref)).toEqual([made[0]!.ref]);
      expect(await names('cause=pump-worn')).toEqual(['1']);
      expect(await names('assigned=me')).toEqual(['2']);
      expect(await names('assigned=none')).toEqual(['0', '1', '3', '4', '5', '6']);
      await as('agent', 'POST', `/api/desk/cases/${made[3]!.ref}/close`, { how: 'settled' });
      expect(await names('state=open')).toEqual(['0', '1', '2', '4', '5', '6']);
      expect(await names('priority=urgent')).toEqual(['0']);
      expect(await names('priority=normal&state=closed')).toEqual(['3']);
      const upper = await as(
        'agent',
        'GET',
        `/api/desk/cases?search=${encodeURIComponent(`${tag.toUpperCase()} ÄHRE 3`)}`,
      );
      expect(upper.body.cases).toHaveLength(1);
      expect((await as('agent', 'GET', '/api/desk/cases?search=%25%25')).body.cases).toEqual([]);

      const paged: string[] = [];
      let after = '';
      do {
        const { body } = await as('agent', 'GET', `/api/desk/cases?search=${tag}&limit=3${after}`);
        paged.push(...body.cases.map((row: { ref: string }) => row.ref));
        after = body.next === null ? '' : `&after=${encodeURIComponent(body.next)}`;
      } while (after);
      expect(paged).toHaveLength(7);
      expect(new Set(paged)).toEqual(new Set(made.map((row) => row.ref)));
    });

    it('finds a case by its reference as it is read aloud, by its call-back and by a note', async () => {
      const plant = { ...fernhollow, name: 'a case that is sought' };
      const callBack = `After four, ${randomUUID()}`;
      const { body } = await as('agent', 'POST', '/api/desk/cases', { plant, callBack });
      const { ref } = body;
      const text = `Ähren im Tank, ${randomUUID()}`;
      await as('agent', 'POST', `/api/desk/cases/${ref}/notes`, { text });
      const found = async (search: string): Promise<string[]> => {
        const query = `/api/desk/cases?search=${encodeURIComponent(search)}`;
        const { cases } = (await as('agent', 'GET', query)).body;
        return cases.map((one: { ref: string }) => one.ref);
      };
      expect(await found(`${ref.slice(0, 4)} ${ref.slice(4, 8).toUpperCase()}`)).toEqual([ref]);
      expect(await found(callBack.toUpperCase())).toEqual([ref]);
      expect(await found(text.toUpperCase().slice(1))).toEqual([ref]);
      expect(await found(text.toUpperCase())).toEqual([ref]);
      expect(await found(`${text} and more`)).toEqual([]);
      // what is forgotten when the case is closed is found no more
      await as('agent', 'POST', `/api/desk/cases/${ref}/close`, { how: 'settled' });
      expect(await found(callBack)).toEqual([]);
      expect(await found(text)).toEqual([ref]);
    });

    it('finds a case by words in any order, over name, note and call-back, and by a number however it is parted', async () => {
      const tag = randomUUID().slice(0, 13);
      const made = await namedCase(`${tag} Nakamura-Reid, the orchard`);
      await namedCase(`${tag} Reid, the mill`);
      const at = `/api/desk/cases/${made.ref}`;
      await as('agent', 'PATCH', `${at}/call`, { callBack: '0555 01-77 33, after four' });
      await as('agent', 'POST', `${at}/notes`, { text: 'Pump clicks on and off' });
      const found = async (search: string): Promise<string[]> => {
        const query = `/api/desk/cases?search=${encodeURIComponent(search)}`;
        return (await as('agent', 'GET', query)).body.cases.map(({ ref }: { ref: string }) => ref);
      };
      for (const told of [
        `orchard reid ${tag}`,
        `reid, ORCHARD; ${tag}`,
        `${tag} clicks orchard four`,
        `${tag}   nakamura`,
        '0555017733',
        '0555 0177 33',
        '01 77-33',
      ]) {
        expect(await found(told), told).toEqual([made.ref]);
      }
      expect(await found(`${tag} orchard mill`)).toEqual([]);
      expect(await found(`${tag} reid`)).toHaveLength(2);
      // a short word is looked for where words begin, so "ch" is not found in "orchard"
      expect(await found(`${tag} th mi`)).toHaveLength(1);
      expect(await found(`${tag} ch`)).toEqual([]);
      // three digits are too few to take for a number written together
      expect(await found(`${tag} 773`)).toEqual([]);
    });
  });

  describe('a call', () => {
    it('holds the way back to the caller and when the stop phrase was said', async () => {
      const { ref } = await namedCase('a call');
      const path = `/api/desk/cases/${ref}/call`;
      await as('agent', 'PATCH', path, { callBack: 'evenings, 555 0100' });
      const { body } = await as('agent', 'PATCH', path, {
        access: 'key under the pot',
        stopPhraseSaid: true,
      });
      expect(body).toEqual({
        callBack: 'evenings, 555 0100',
        access: 'key under the pot',
        stopPhraseAt: expect.stringMatching(/^\d{4}-/),
      });
      expect((await as('agent', 'GET', `/api/desk/cases/${ref}`)).body.call).toEqual(body);
    });

    it('forgets number and way in when the case is closed, and says how it was closed', async () => {
      const { ref, id } = await namedCase('a closed call');
      await as('agent', 'PATCH', `/api/desk/cases/${ref}/call`, {
        callBack: '555 0101',
        access: 'gate',
      });
      expect(
        (await as('agent', 'POST', `/api/desk/cases/${ref}/close`, { how: 'settled' })).status,
      ).toBe(204);
      const closed = (await as('agent', 'GET', `/api/desk/cases/${ref}`)).body;
      expect(closed.desk).toMatchObject({ state: 'closed', closedHow: 'settled' });
      expect(closed.call).toMatchObject({ callBack: null, access: null });
      await server.send('POST', `/api/cases/${id}/answers`, answerTo('smell', 'none'));
      const again = (await as('agent', 'GET', `/api/desk/cases/${ref}`)).body;
      expect(again.desk).toMatchObject({ state: 'asking', closedHow: null });
    });

    it('keeps the way in while somebody who was sent still has to get in', async () => {
      const { ref } = await namedCase('a way in');
      const path = `/api/desk/cases/${ref}`;
      await as('agent', 'PATCH', `${path}/call`, { callBack: '555 0103', access: 'side door' });
      await as('agent', 'POST', `${path}/close`, { how: 'sent' });
      const { call } = (await as('agent', 'GET', path)).body;
      expect(call).toMatchObject({ callBack: '555 0103', access: 'side door' });
    });

    it('and notes are the desk’s: a link shows none of it', async () => {
      const { ref, id } = await namedCase('a private matter');
      await as('agent', 'PATCH', `/api/desk/cases/${ref}/call`, { callBack: '555 0102' });
      const note = await as('agent', 'POST', `/api/desk/cases/${ref}/notes`, {
        text: 'Dog in the yard.\nRing twice.',
      });
      expect([note.status, note.body.by]).toEqual([201, 'The agent']);
      expect((await as('owner', 'GET', `/api/desk/cases/${ref}`)).body.notes).toEqual([note.body]);
      const seen = JSON.stringify((await server.send('GET', `/api/cases/${id}`)).body);
      for (const secret of ['555 0102', 'Dog', ref, 'agent@example.org'])
        expect(seen).not.toContain(secret);
    });
  });

  it('opens a case for a caller, answers it, and hands out a link that reads', async () => {
    const opened = await as('agent', 'POST', '/api/desk/cases', { plant: fernhollow });
    expect([opened.status, opened.body.view.audience]).toEqual([201, 'agent']);
    const { ref } = opened.body;
    const answer = answerTo('smell', 'none', { after: 0 });
    expect((await as('agent', 'POST', `/api/desk/cases/${ref}/answers`, answer)).body.said).toEqual(
      ['smell="none"'],
    );
    const link = await as('agent', 'POST', `/api/desk/cases/${ref}/links`, { strength: 'read' });
    expect((await server.send('GET', `/api/cases/${link.body.id}`)).body.case.answers).toHaveLength(
      1,
    );
    const listed = await as('agent', 'GET', `/api/desk/cases/${ref}/links`);
    expect(listed.body.links.every((one: { own: boolean }) => !one.own)).toBe(true);
    const { ref: third } = listed.body.links[2];
    await as('agent', 'POST', `/api/desk/cases/${ref}/links/${third}/withdraw`);
    expect((await server.send('GET', `/api/cases/${link.body.id}`)).status).toBe(410);
    await as('agent', 'POST', `/api/desk/cases/${ref}/withdraw`, {
      strengths: ['continue', 'read'],
    });
    for (const id of [link.body.id, opened.body.id])
      expect((await server.send('GET', `/api/cases/${id}`)).status).toBe(410);
    expect((await as('agent', 'GET', `/api/desk/cases/${ref}`)).status).toBe(200);
    expect((await as('owner', 'DELETE', `/api/desk/cases/${ref}`)).status).toBe(204);
    expect((await as('owner', 'GET', `/api/desk/cases/${ref}`)).status).toBe(404);
  });

  it('refuses a change that another site sends with somebody’s session', async () => {
    const headers = { cookie: cookies.agent, origin: 'https://elsewhere.example' };
    expect((await server.send('POST', '/api/desk/cases', {}, headers)).status).toBe(403);
    const own = { cookie: cookies.agent, origin: server.deps.publicUrl };
    expect((await server.send('POST', '/api/desk/cases', {}, own)).status).toBe(201);
  });

  it('logs no person, password or note', async () => {
    for (const secret of ['example.org', PASSWORD, 'Dog in the yard', '555 0102'])
      expect(server.logged()).not.toContain(secret);
  });
});
