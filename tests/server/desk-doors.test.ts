import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { changePerson, removePerson } from '../../src/server/services/people.ts';
import { listPeople } from '../../src/store/repositories/people.ts';
import type { Role } from '../../src/store/tables.ts';
import { onBothStores, storeOpener } from '../store/stores.ts';
import { cookieOf, type Desk, deskOn, PASSWORD } from './desk-people.ts';
import { answerTo, type TestServer, testServer } from './test-server.ts';

onBothStores('who may do what at the desk', (place) => {
  const open = storeOpener(place);
  let server: TestServer;
  let ids: Desk['ids'];
  let as: Desk['as'];
  let signIn: Desk['signIn'];
  let namedCase: Desk['namedCase'];
  beforeAll(async () => {
    ({ server, ids, as, signIn, namedCase } = await deskOn(await open()));
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

    describe('from one address', () => {
      const doorOf = async (secret: string) => {
        const limits = { casesPerTenMinutes: 10, signInsPerTenMinutes: 3 };
        const limited = await testServer(server.deps.store, { limits, secret });
        return async (email: string, password = PASSWORD): Promise<number> =>
          (await limited.send('POST', '/api/desk/sign-in', { email, password })).status;
      };
      const people = ['owner', 'agent', 'technician', 'agent', 'owner'];

      it('is not refused to those who may, however many they are', async () => {
        const enter = await doorOf('an office in the morning');
        const statuses = [];
        for (const person of people) statuses.push(await enter(`${person}@example.org`));
        expect(statuses).toEqual(people.map(() => 200));
      });

      it('is refused past the limit of failures, whose password it ever was', async () => {
        const enter = await doorOf('guesses at many people');
        const statuses = [await enter('agent@example.org')];
        for (const person of ['a', 'b', 'c', 'd'])
          statuses.push(await enter(`${person}@example.org`));
        statuses.push(await enter('agent@example.org'));
        expect(statuses).toEqual([200, 401, 401, 401, 429, 429]);
      });

      it('is refused past the limit also to guesses sent all at once', async () => {
        const enter = await doorOf('guesses at once');
        const guesses = Array.from({ length: 12 }, () => enter('agent@example.org', 'a guess'));
        const statuses = await Promise.all(guesses);
        expect(statuses.filter((status) => status !== 429)).toEqual([401, 401, 401]);
      });
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

    it('keep an owner also when two step down at the same moment', async () => {
      const { deps } = await testServer(await open());
      const one = { name: 'One', role: 'owner' as const, password: PASSWORD };
      const owners = await Promise.all(
        ['one', 'two'].map((name) => deps.auth.addPerson({ ...one, email: `${name}@example.org` })),
      );
      const left = await Promise.allSettled([
        changePerson(deps, owners[0]!.id, { role: 'agent' }),
        removePerson(deps, owners[1]!.id),
      ]);
      expect(left.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected']);
      const people = await listPeople(deps.store.db);
      expect(people.filter(({ role }) => role === 'owner')).toHaveLength(1);
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

  it('logs no person and no password', () => {
    for (const secret of ['example.org', PASSWORD]) expect(server.logged()).not.toContain(secret);
  });
});
