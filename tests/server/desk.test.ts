import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Role } from '../../src/store/tables.ts';
import { onBothStores, storeOpener } from '../store/stores.ts';
import { fernhollow } from './stand-in-judge.ts';
import { answerTo, openedCase, type Sent, type TestServer, testServer } from './test-server.ts';

const PASSWORD = 'a long enough password';

onBothStores('the desk', (place) => {
  const open = storeOpener(place);
  let server: TestServer;
  let cookies: Record<Role, string>;
  let ids: Record<Role, string>;

  const signIn = async (email: string, password = PASSWORD): Promise<Sent> =>
    server.send('POST', '/api/desk/sign-in', { email, password });
  const cookieOf = ({ headers }: Sent): string =>
    headers
      .getSetCookie()
      .map((cookie) => cookie.split(';')[0])
      .join('; ');
  const as = (role: Role, method: string, path: string, body?: unknown): Promise<Sent> =>
    server.send(method, path, body, { cookie: cookies[role] });
  const refOf = async (name: string): Promise<string> =>
    (await as('owner', 'GET', `/api/desk/cases?search=${encodeURIComponent(name)}`)).body.cases[0]
      .ref;
  const namedCase = async (name: string): Promise<{ id: string; readId: string; ref: string }> => {
    const links = await openedCase(server, { ...fernhollow, name });
    return { ...links, ref: await refOf(name) };
  };

  beforeAll(async () => {
    server = await testServer(await open());
    const made = {} as Record<Role, string>;
    const signed = {} as Record<Role, string>;
    for (const role of ['owner', 'agent', 'technician'] as const) {
      const person = {
        name: `The ${role}`,
        email: `${role}@example.org`,
        role,
        password: PASSWORD,
      };
      made[role] = (await server.deps.auth.addPerson(person)).id;
      signed[role] = cookieOf(await signIn(person.email));
    }
    ids = made;
    cookies = signed;
  });

  describe('sign-in', () => {
    it('gives a cookie scripts cannot read and other sites cannot send', async () => {
      const sent = await signIn('agent@example.org');
      expect([sent.status, sent.body.role]).toEqual([200, 'agent']);
      const cookie = sent.headers.getSetCookie().find((line) => line.includes('session_token'));
      expect(cookie).toMatch(/HttpOnly/i);
      expect(cookie).toMatch(/SameSite=Lax/i);
    });

    it('answers the same for a wrong password and for an unknown e-mail', async () => {
      const wrong = await signIn('agent@example.org', 'not this password');
      const unknown = await signIn('nobody@example.org');
      expect([wrong.status, unknown.status]).toEqual([401, 401]);
      expect(wrong.body).toEqual(unknown.body);
    });

    it('is not offered to the public as signing up', async () => {
      for (const path of ['/api/auth/sign-up/email', '/api/desk/sign-up']) {
        expect(
          (
            await server.send('POST', path, {
              email: 'a@example.org',
              password: PASSWORD,
              name: 'A',
            })
          ).status,
        ).toBe(404);
      }
    });

    it('is refused past the limit for one e-mail, whoever asks', async () => {
      const limited = await testServer(server.deps.store, {
        limits: { casesPerTenMinutes: 10, signInsPerTenMinutes: 3 },
        secret: 'counts apart from the others',
        trustProxy: true,
      });
      const statuses = [];
      for (let i = 0; i < 5; i += 1) {
        const body = { email: 'agent@example.org', password: 'guess number one' };
        statuses.push(
          (
            await limited.send('POST', '/api/desk/sign-in', body, {
              'x-forwarded-for': `192.0.2.${i}`,
            })
          ).status,
        );
      }
      expect(statuses).toEqual([401, 401, 401, 429, 429]);
    });

    it('ends with signing out', async () => {
      const cookie = cookieOf(await signIn('agent@example.org'));
      expect((await server.send('GET', '/api/desk/me', undefined, { cookie })).status).toBe(200);
      expect((await server.send('POST', '/api/desk/sign-out', undefined, { cookie })).status).toBe(
        204,
      );
      expect((await server.send('GET', '/api/desk/me', undefined, { cookie })).status).toBe(401);
    });

    it('lets one change the own password, which ends the sessions', async () => {
      const person = {
        name: 'Changing',
        email: 'changing@example.org',
        role: 'agent' as const,
        password: PASSWORD,
      };
      await server.deps.auth.addPerson(person);
      const cookie = cookieOf(await signIn(person.email));
      const change = (password: string) =>
        server.send(
          'POST',
          '/api/desk/password',
          { password, newPassword: 'another long password' },
          { cookie },
        );
      expect((await change('not the old one')).status).toBe(403);
      expect((await change(PASSWORD)).status).toBe(204);
      expect((await server.send('GET', '/api/desk/me', undefined, { cookie })).status).toBe(401);
      expect((await signIn(person.email, 'another long password')).status).toBe(200);
    });

    it('keeps neither address nor browser with a session', async () => {
      await signIn('agent@example.org');
      const sessions = await server.deps.store.db
        .selectFrom('session')
        .select(['ipAddress', 'userAgent'])
        .execute();
      expect(sessions.length).toBeGreaterThan(0);
      for (const session of sessions)
        expect([session.ipAddress || null, session.userAgent || null]).toEqual([null, null]);
    });
  });

  describe('roles', () => {
    const ref = randomUUID();
    const rows: [method: string, path: string, body: unknown, allowed: Role[]][] = [
      ['GET', '/api/desk/cases', undefined, ['agent', 'technician', 'owner']],
      ['GET', '/api/desk/counts', undefined, ['agent', 'owner']],
      ['POST', '/api/desk/cases', {}, ['agent', 'owner']],
      ['GET', '/api/desk/plants', undefined, ['agent', 'owner']],
      ['GET', '/api/desk/people', undefined, ['agent', 'technician', 'owner']],
      ['POST', '/api/desk/people', {}, ['owner']],
      ['PATCH', `/api/desk/people/${ref}`, {}, ['owner']],
      ['DELETE', `/api/desk/people/${ref}`, undefined, ['owner']],
      ['POST', `/api/desk/cases/${ref}/assign`, { to: null }, ['agent', 'owner']],
      ['POST', `/api/desk/cases/${ref}/links`, { strength: 'read' }, ['agent', 'owner']],
      ['GET', `/api/desk/cases/${ref}/links`, undefined, ['agent', 'owner']],
      ['POST', `/api/desk/cases/${ref}/links/some/withdraw`, undefined, ['agent', 'owner']],
      ['DELETE', `/api/desk/cases/${ref}`, undefined, ['owner']],
    ];
    it.each(rows)('%s %s is for some only', async (method, path, body, allowed) => {
      expect((await server.send(method, path, body)).status).toBe(401);
      for (const role of ['agent', 'technician', 'owner'] as const) {
        const { status } = await as(role, method, path, body);
        if (allowed.includes(role)) expect([200, 201, 404, 422]).toContain(status);
        else expect(status).toBe(403);
      }
    });

    it('show a technician only what is assigned to them', async () => {
      const { ref: mine } = await namedCase('assigned to the technician');
      const { ref: other } = await namedCase('assigned to nobody');
      expect((await as('technician', 'GET', `/api/desk/cases/${mine}`)).status).toBe(404);
      await as('agent', 'POST', `/api/desk/cases/${mine}/assign`, { to: ids.technician });
      const list = await as('technician', 'GET', '/api/desk/cases');
      expect(list.body.cases.map((row: { ref: string }) => row.ref)).toEqual([mine]);
      expect((await as('technician', 'GET', `/api/desk/cases/${mine}`)).status).toBe(200);
      for (const [method, path, body] of [
        ['GET', '', undefined],
        ['POST', '/notes', { text: 'x' }],
        ['POST', '/close', { how: 'settled' }],
        ['POST', '/answers', answerTo('smell', 'none')],
        ['GET', '/events', undefined],
      ] as const) {
        expect(
          (await as('technician', method, `/api/desk/cases/${other}${path}`, body)).status,
        ).toBe(404);
      }
    });
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
      expect(await names('cause=pump-worn')).toEqual(['1']);
      expect(await names('assigned=me')).toEqual(['2']);
      expect(await names('assigned=none')).toEqual(['0', '1', '3', '4', '5', '6']);
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
  });

  describe('a call', () => {
    it('holds where the caller is, the way back to them and when the stop phrase was said', async () => {
      const { ref } = await namedCase('a call');
      const path = `/api/desk/cases/${ref}/call`;
      await as('agent', 'PATCH', path, { caller: 'at-plant', callBack: 'evenings, 555 0100' });
      const { body } = await as('agent', 'PATCH', path, {
        access: 'key under the pot',
        stopPhraseSaid: true,
      });
      expect(body).toEqual({
        caller: 'at-plant',
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

  describe('people', () => {
    it('are let in by an owner, change their role, and are let in no more', async () => {
      const person = {
        name: 'New One',
        email: 'New.One@example.org',
        role: 'agent',
        password: PASSWORD,
      };
      const made = await as('owner', 'POST', '/api/desk/people', person);
      expect(made.status).toBe(201);
      expect((await as('owner', 'POST', '/api/desk/people', person)).status).toBe(409);
      const cookie = cookieOf(await signIn('new.one@example.org'));
      await as('owner', 'PATCH', `/api/desk/people/${made.body.id}`, { role: 'technician' });
      expect((await server.send('GET', '/api/desk/me', undefined, { cookie })).body.role).toBe(
        'technician',
      );
      expect((await as('owner', 'DELETE', `/api/desk/people/${made.body.id}`)).status).toBe(204);
      expect((await server.send('GET', '/api/desk/me', undefined, { cookie })).status).toBe(401);
      expect((await signIn('new.one@example.org')).status).toBe(401);
    });

    it('always have one owner', async () => {
      const demote = await as('owner', 'PATCH', `/api/desk/people/${ids.owner}`, { role: 'agent' });
      const remove = await as('owner', 'DELETE', `/api/desk/people/${ids.owner}`);
      expect([demote.status, remove.status]).toEqual([409, 409]);
    });

    it.each(['short', 'x'.repeat(200)])(
      'need a password of 12 to 128 characters: %.10s',
      async (password) => {
        const body = { name: 'N', email: `${randomUUID()}@example.org`, role: 'agent', password };
        const sent = await as('owner', 'POST', '/api/desk/people', body);
        expect([sent.status, sent.body.where]).toEqual([422, 'password']);
      },
    );
  });

  it('logs no person, password or note', async () => {
    for (const secret of ['example.org', PASSWORD, 'Dog in the yard', '555 0102'])
      expect(server.logged()).not.toContain(secret);
  });
});
