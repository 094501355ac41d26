import { randomUUID } from 'node:crypto';
import { beforeAll, describe, expect, it } from 'vitest';
import { onBothStores, storeOpener } from '../store/stores.ts';
import { fernhollow } from './stand-in-judge.ts';
import { answerTo, openedCase, type TestServer, testServer } from './test-server.ts';

onBothStores('a case over HTTP', (place) => {
  const open = storeOpener(place);
  let server: TestServer;
  beforeAll(async () => {
    server = await testServer(await open());
  });

  it('is opened with two links of at least 128 bits and a view', async () => {
    const { status, body } = await server.send('POST', '/api/cases', {
      plant: fernhollow,
      audience: 'agent',
    });
    expect(status).toBe(201);
    expect(Object.keys(body).sort()).toEqual(['id', 'readId', 'view']);
    for (const link of [body.id, body.readId])
      expect(Buffer.from(link, 'base64url').length).toBeGreaterThanOrEqual(16);
    expect(body.view.ruleSet).toBe('2026-12-01');
    expect(body.view.audience).toBe('agent');
  });

  it('is opened without a plant', async () => {
    const { id } = await openedCase(server);
    expect((await server.send('GET', `/api/cases/${id}`)).body.case.plant).toBeNull();
  });

  it('gives back its answers in order, as sent, with the view', async () => {
    const { id, readId } = await openedCase(server, fernhollow);
    const sent = [
      answerTo('complaint', ['weak'], { at: '2026-11-25T08:30:00+01:00' }),
      answerTo('readings', { taps: 'closed', bar: { G1: 3.4 } }),
      answerTo('complaint', null),
      answerTo('smell', 'unknown'),
    ];
    for (const [i, answer] of sent.entries()) {
      const { status, body, headers } = await server.send('POST', `/api/cases/${id}/answers`, {
        ...answer,
        after: i,
      });
      expect(status).toBe(200);
      expect(body.said).toHaveLength(i + 1);
      expect(headers.get('answer-count')).toBe(String(i + 1));
    }
    for (const link of [id, readId]) {
      const { status, body } = await server.send('GET', `/api/cases/${link}`);
      expect(status).toBe(200);
      expect(body.case.answers).toEqual(sent);
      expect(body.view.said).toHaveLength(4);
      expect(body.view.today).toBe('2026-11-25');
      expect(body.case.mayContinue).toBe(link === id);
    }
  });

  it('takes the same answer twice as one', async () => {
    const { id } = await openedCase(server, fernhollow);
    const answer = answerTo('complaint', ['weak'], { after: 0 });
    const first = await server.send('POST', `/api/cases/${id}/answers`, answer);
    const again = await server.send('POST', `/api/cases/${id}/answers`, answer);
    expect(again.status).toBe(200);
    expect(again.body).toEqual(first.body);
    expect((await server.send('GET', `/api/cases/${id}`)).body.case.answers).toHaveLength(1);
  });

  it('takes it as one, too, when its id comes in capitals', async () => {
    const { id } = await openedCase(server, fernhollow);
    const answerId = 'a2b0c1d2-93ad-4a55-9a2b-0a3d0ef1d2ab';
    const answer = answerTo('complaint', ['weak'], { answerId });
    await server.send('POST', `/api/cases/${id}/answers`, answer);
    const again = answerTo('complaint', ['weak'], { answerId: answerId.toUpperCase() });
    expect((await server.send('POST', `/api/cases/${id}/answers`, again)).status).toBe(200);
    expect((await server.send('GET', `/api/cases/${id}`)).body.case.answers).toHaveLength(1);
  });

  it('refuses another answer under an answerId already used', async () => {
    const { id } = await openedCase(server, fernhollow);
    const answer = answerTo('complaint', ['weak']);
    await server.send('POST', `/api/cases/${id}/answers`, answer);
    const { status, body } = await server.send('POST', `/api/cases/${id}/answers`, {
      ...answer,
      value: ['noise'],
    });
    expect([status, body.type]).toEqual([409, '/problems/answer-id-used']);
  });

  it('answers 409 with what came between, and takes the answer after that', async () => {
    const { id } = await openedCase(server, fernhollow);
    const theirs = answerTo('complaint', ['weak']);
    await server.send('POST', `/api/cases/${id}/answers`, theirs);
    const mine = answerTo('smell', 'none', { after: 0 });
    const refused = await server.send('POST', `/api/cases/${id}/answers`, mine);
    expect(refused.status).toBe(409);
    expect(refused.headers.get('content-type')).toBe('application/problem+json');
    expect(refused.body).toMatchObject({
      status: 409,
      type: '/problems/answers-between',
      count: 1,
      answers: [theirs],
    });
    expect(
      (await server.send('POST', `/api/cases/${id}/answers`, { ...mine, after: 1 })).status,
    ).toBe(200);
  });

  it('stores nothing of an answer it cannot use, and names the place', async () => {
    const { id } = await openedCase(server, fernhollow);
    const { status, body } = await server.send(
      'POST',
      `/api/cases/${id}/answers`,
      answerTo('plant', { line: [] }),
    );
    expect([status, body.where]).toEqual([422, 'value.line']);
    expect((await server.send('GET', `/api/cases/${id}`)).body.case.answers).toEqual([]);
  });

  it('shows the plant as the latest answer describes it', async () => {
    const { id } = await openedCase(server, fernhollow);
    const renamed = { ...fernhollow, name: 'Fernhollow annexe' };
    await server.send('POST', `/api/cases/${id}/answers`, answerTo('plant', renamed));
    expect((await server.send('GET', `/api/cases/${id}`)).body.case.plant).toEqual(renamed);
  });

  it('is put into the words of another audience on request', async () => {
    const { id } = await openedCase(server, fernhollow);
    expect(
      (await server.send('GET', `/api/cases/${id}?audience=technician`)).body.view.audience,
    ).toBe('technician');
  });

  it('says the same whenever it is read: without a time it is judged by the day it was received', async () => {
    const store = server.deps.store;
    const day = (date: string) => testServer(store, { clock: () => new Date(date) });
    const { id } = await openedCase(await day('2026-03-01T10:00:00Z'), fernhollow);
    const read = async (on: TestServer) =>
      (await on.send('GET', `/api/cases/${id}`)).body.view.today;
    expect(await read(await day('2026-03-01T10:00:01Z'))).toBe('2026-03-01');
    expect(await read(await day('2027-09-09T10:00:00Z'))).toBe('2026-03-01');
  });

  describe('links', () => {
    it('that only read refuse every change', async () => {
      const { readId } = await openedCase(server, fernhollow);
      const tries: [string, string, unknown?][] = [
        ['POST', `/api/cases/${readId}/answers`, answerTo('smell', 'none')],
        ['POST', `/api/cases/${readId}/withdraw`, { strengths: ['continue'] }],
        ['POST', `/api/cases/${readId}/links`, { strength: 'continue' }],
        ['POST', `/api/cases/${readId}/rejudge`, {}],
        ['DELETE', `/api/cases/${readId}`],
      ];
      for (const [method, path, body] of tries)
        expect((await server.send(method, path, body)).status).toBe(403);
    });

    it('can be withdrawn one strength at a time, and then answer 410', async () => {
      const { id, readId } = await openedCase(server, fernhollow);
      expect(
        (await server.send('POST', `/api/cases/${id}/withdraw`, { strengths: ['read'] })).status,
      ).toBe(204);
      expect((await server.send('GET', `/api/cases/${readId}`)).status).toBe(410);
      expect((await server.send('GET', `/api/cases/${id}`)).status).toBe(200);
      const made = await server.send('POST', `/api/cases/${id}/links`, { strength: 'read' });
      expect(made.status).toBe(201);
      expect((await server.send('GET', `/api/cases/${made.body.id}`)).status).toBe(200);
      await server.send('POST', `/api/cases/${id}/withdraw`, { strengths: ['continue'] });
      for (const [method, path] of [
        ['GET', ''],
        ['POST', '/answers'],
      ] as const) {
        const body = method === 'POST' ? answerTo('smell', 'none') : undefined;
        expect((await server.send(method, `/api/cases/${id}${path}`, body)).status).toBe(410);
      }
    });

    it('are listed with strength and day, never with what opens them, and withdrawn one by one', async () => {
      const { id, readId } = await openedCase(server, fernhollow);
      const made = await server.send('POST', `/api/cases/${id}/links`, { strength: 'continue' });
      const { body } = await server.send('GET', `/api/cases/${id}/links`);
      expect(
        body.links.map(({ strength, own }: { strength: string; own: boolean }) => [strength, own]),
      ).toEqual([
        ['continue', true],
        ['read', false],
        ['continue', false],
      ]);
      expect(body.links[2].createdAt).toMatch(/^\d{4}-\d\d-\d\dT/);
      for (const token of [id, readId, made.body.id])
        expect(JSON.stringify(body)).not.toContain(token);
      const { ref } = body.links[2];
      const gone = await server.send('POST', `/api/cases/${id}/links/${ref}/withdraw`);
      expect(gone.status).toBe(204);
      expect((await server.send('GET', `/api/cases/${made.body.id}`)).status).toBe(410);
      expect((await server.send('GET', `/api/cases/${readId}`)).status).toBe(200);
      expect((await server.send('GET', `/api/cases/${id}/links`)).body.links).toHaveLength(2);
      for (const wrong of [ref, 'nothing', '%25'])
        expect((await server.send('POST', `/api/cases/${id}/links/${wrong}/withdraw`)).status).toBe(
          404,
        );
      expect((await server.send('GET', `/api/cases/${readId}/links`)).status).toBe(403);
    });

    it.each(['nothing', 'A'.repeat(32), '%00', randomUUID(), 'x'.repeat(5000)])(
      'that open nothing answer 404: %.20s',
      async (link) => {
        const { status, body } = await server.send('GET', `/api/cases/${link}`);
        expect([404, 422]).toContain(status);
        expect(body.status).toBe(status);
      },
    );

    it('are stored as hashes and never logged', async () => {
      const { id, readId } = await openedCase(server, fernhollow);
      await server.send('GET', `/api/cases/${id}`);
      await server.send('GET', `/api/cases/${readId}`);
      await server.send('GET', `/api/cases/${id}/nothing-here`);
      expect(server.logged()).toContain('/api/cases/:id');
      const stored = JSON.stringify(
        await server.deps.store.db.selectFrom('links').selectAll().execute(),
      );
      for (const link of [id, readId]) {
        expect(server.logged()).not.toContain(link);
        expect(stored).not.toContain(link);
      }
    });
  });

  it('is erased whole; its links answer 410 and nothing of it is left', async () => {
    const { id, readId } = await openedCase(server, { ...fernhollow, name: 'to be forgotten' });
    await server.send('POST', `/api/cases/${id}/answers`, answerTo('smell', 'none'));
    expect((await server.send('DELETE', `/api/cases/${id}`)).status).toBe(204);
    for (const link of [id, readId])
      expect((await server.send('GET', `/api/cases/${link}`)).status).toBe(410);
    const { db } = server.deps.store;
    const left = await db
      .selectFrom('cases')
      .selectAll()
      .where('plant', 'like', '%to be forgotten%')
      .execute();
    expect(left).toEqual([]);
  });

  describe('re-judging', () => {
    /** A case opened when the older rule set was the newest. */
    const oldCase = async (): Promise<string> => {
      const judge = { ...server.deps.judge, ruleSets: ['2026-01-01'] };
      const before = await testServer(server.deps.store, { judge });
      return (await openedCase(before, fernhollow)).id;
    };

    it('does not happen by itself: a case keeps the rule set it was opened under', async () => {
      const id = await oldCase();
      const { body } = await server.send('GET', `/api/cases/${id}`);
      expect([body.case.ruleSet, body.view.ruleSet]).toEqual(['2026-01-01', '2026-01-01']);
      const after = await server.send(
        'POST',
        `/api/cases/${id}/answers`,
        answerTo('smell', 'none'),
      );
      expect(after.body.ruleSet).toBe('2026-01-01');
    });

    it('shows the difference first and changes nothing', async () => {
      const id = await oldCase();
      const { status, body } = await server.send('GET', `/api/cases/${id}/rejudge`);
      expect(status).toBe(200);
      expect(body).toMatchObject({
        from: '2026-01-01',
        to: '2026-12-01',
        difference: {
          causes: [
            { id: 'nothing-wrong', before: 0.4, after: expect.closeTo(0.1) },
            { id: 'sediment-blocked', before: 0.6, after: 0.9 },
          ],
          plan: { before: ['lab-test'], after: ['change-sediment'] },
        },
      });
      expect((await server.send('GET', `/api/cases/${id}`)).body.case.ruleSet).toBe('2026-01-01');
    });

    it('is kept once asked for, and on record', async () => {
      const id = await oldCase();
      expect((await server.send('POST', `/api/cases/${id}/rejudge`, {})).status).toBe(200);
      const { body } = await server.send('GET', `/api/cases/${id}`);
      expect(body.view.ruleSet).toBe('2026-12-01');
      expect(body.case.rejudged).toMatchObject([{ from: '2026-01-01', to: '2026-12-01' }]);
    });

    it('names the rule sets there are when asked for another', async () => {
      const id = await oldCase();
      const { status, body } = await server.send('POST', `/api/cases/${id}/rejudge`, {
        ruleSet: '1999-01-01',
      });
      expect([status, body.detail]).toEqual([
        422,
        expect.stringContaining('2026-01-01, 2026-12-01'),
      ]);
    });

    it('is told apart from a rule set this server lacks, which is 503 and never another answer', async () => {
      const { id } = await openedCase(server, fernhollow);
      const older = await testServer(server.deps.store, {
        judge: { ...server.deps.judge, ruleSets: ['2026-01-01'] },
      });
      const { status, body } = await older.send('GET', `/api/cases/${id}`);
      expect([status, body.type]).toEqual([503, '/problems/rule-set-missing']);
    });
  });

  it('counts new cases by address and refuses past the limit, saying when to come back', async () => {
    const limits = { ...server.deps.limits, casesPerTenMinutes: 3 };
    const limited = await testServer(await open(), { limits });
    const statuses = [];
    for (let i = 0; i < 5; i += 1)
      statuses.push((await limited.send('POST', '/api/cases', {})).status);
    expect(statuses).toEqual([201, 201, 201, 429, 429]);
    const { headers } = await limited.send('POST', '/api/cases', {});
    expect(Number(headers.get('retry-after'))).toBeGreaterThan(0);
  });
});
