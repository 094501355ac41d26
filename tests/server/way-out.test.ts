import { randomUUID } from 'node:crypto';
import { beforeAll, expect, it } from 'vitest';
import { rulesJudge } from '../../src/server/rules-judge.ts';
import { onBothStores, storeOpener } from '../store/stores.ts';
import { type Desk, deskOn } from './desk-people.ts';
import { type TestServer, testServer } from './test-server.ts';

/** What is refused says where, and what would be right: who scripts against it reads nothing else. */
onBothStores('a refusal', (place) => {
  const open = storeOpener(place);
  let server: TestServer;
  let as: Desk['as'];
  beforeAll(async () => {
    server = await testServer(await open(), { judge: rulesJudge(() => new Date()) });
    ({ as } = await deskOn(await open()));
  });

  it.each([
    [{ plnt: {} }, 'plnt', 'did you mean "plant"?'],
    [{ colour: 1 }, 'colour', 'use one of plant, '],
    [{ audience: 'plumber' }, 'audience', 'must be one of householder, agent, technician'],
    [{ audience: 7 }, 'audience', 'must be one of householder, agent, technician'],
    [
      { plant: { name: 'x', line: [] } },
      'plant.line',
      'list the parts in their order from the tank to the house',
    ],
    [
      {
        plant: {
          name: 'x',
          line: [
            { id: 'p', kind: 'pump', curve: [] },
            { id: 'h', kind: 'house' },
          ],
        },
      },
      'plant.line[0].curve',
      'at least 1 entry: fill it, or leave the field out',
    ],
  ])('of a new case, %j, names %s and the way out', async (body, where, way) => {
    const { status, body: problem } = await server.send('POST', '/api/cases', body);
    expect(status).toBe(422);
    expect(problem.where).toBe(where);
    expect(problem.detail).toContain(way);
  });

  it.each([
    [{ question: 'danger', value: [] }, 'answerId', 'is missing: give a'],
    [{ answerId: 'seven', question: 'danger', value: [] }, 'answerId', 'must be a UUID like'],
    [
      { answerId: randomUUID(), question: 'dangr', value: [] },
      'question',
      'did you mean "danger"?',
    ],
    [
      { answerId: randomUUID(), question: 'onset', value: 'sudden', vlue: 1 },
      'vlue',
      'did you mean "value"?',
    ],
  ])('of an answer, %j, names %s and the way out', async (body, where, way) => {
    const opened = await server.send('POST', '/api/cases', {});
    const { status, body: problem } = await server.send(
      'POST',
      `/api/cases/${opened.body.id}/answers`,
      body,
    );
    expect(status).toBe(422);
    expect(problem.where).toBe(where);
    expect(problem.detail).toContain(way);
  });

  it('of an answerId used before says how to go on', async () => {
    const opened = await server.send('POST', '/api/cases', {});
    const path = `/api/cases/${opened.body.id}/answers`;
    const answerId = randomUUID();
    await server.send('POST', path, { answerId, question: 'danger', value: [] });
    const { status, body } = await server.send('POST', path, {
      answerId,
      question: 'household',
      value: [],
    });
    expect(status).toBe(409);
    expect(body.detail).toContain('Make a new UUID for each answer');
  });

  it('of the desk lists what may stand there, every place at once', async () => {
    const person = { name: '', email: 'x', role: 'boss', password: 'short' };
    const { body } = await as('owner', 'POST', '/api/desk/people', person);
    expect(body.errors).toEqual([
      { where: 'name', message: 'must not be empty' },
      { where: 'email', message: 'must be an e-mail address like mira@example.org' },
      { where: 'role', message: 'must be one of agent, technician, owner' },
      { where: 'password', message: 'must be at least 12 characters' },
    ]);
    const list = await as('agent', 'GET', '/api/desk/cases?state=done&limit=9999');
    expect(list.body.errors).toEqual([
      { where: 'query state', message: 'must be one of asking, planned, stopped, closed, open' },
      { where: 'query limit', message: 'must be at most 200' },
    ]);
  });

  it('of an address that is not there says where all of them are', async () => {
    const { status, body } = await server.send('GET', '/api/nothing');
    expect(status).toBe(404);
    expect(body.detail).toContain('/openapi.json');
  });
});
