import { beforeAll, expect, it } from 'vitest';
import { onBothStores, storeOpener } from '../store/stores.ts';
import { fernhollow } from './stand-in-judge.ts';
import { answerTo, type TestServer, testServer } from './test-server.ts';

onBothStores('a plant on record', (place) => {
  const open = storeOpener(place);
  let server: TestServer;
  beforeAll(async () => {
    server = await testServer(await open());
  });

  it('gathers readings in bar and work from all its cases, and shows itself as it now is', async () => {
    const { id, readId } = (await server.send('POST', '/api/plants', { plant: fernhollow })).body;
    const round = async (...answers: object[]): Promise<void> => {
      const opened = await server.send('POST', '/api/cases', { plantId: id });
      expect(opened.status).toBe(201);
      for (const answer of answers) {
        expect(
          (await server.send('POST', `/api/cases/${opened.body.id}/answers`, answer)).status,
        ).toBe(200);
      }
    };
    const at = '2026-09-01T08:00:00+02:00';
    await round(
      answerTo(
        'readings',
        { taps: { open: 1 }, bar: { G1: 3.1, G2: 'unknown' }, flowLpm: 12 },
        { at },
      ),
    );
    const later = '2026-10-01T08:00:00+02:00';
    const renamed = { ...fernhollow, name: 'Fernhollow, rebuilt' };
    await round(
      answerTo('readings', { taps: 'closed', psi: { G1: 14.503774 } }, { at: later }),
      answerTo('work-done', { job: 'change-sediment', parts: ['sed-1'] }, { at: later }),
      answerTo('plant', renamed, { at: later }),
    );
    const { status, body } = await server.send('GET', `/api/plants/${readId}`);
    expect(status).toBe(200);
    expect(body).toEqual({
      plant: renamed,
      history: [
        { at, taps: { open: 1 }, bar: { G1: 3.1 }, flowLpm: 12 },
        { at: later, taps: 'closed', bar: { G1: expect.closeTo(1, 7) } },
      ],
      done: [{ at: later, job: 'change-sediment', parts: ['sed-1'] }],
    });
  });

  it('keeps its links apart from those of cases', async () => {
    const { id } = (await server.send('POST', '/api/plants', { plant: fernhollow })).body;
    expect((await server.send('GET', `/api/cases/${id}`)).status).toBe(404);
    const opened = await server.send('POST', '/api/cases', { plantId: id });
    expect((await server.send('GET', `/api/plants/${opened.body.id}`)).status).toBe(404);
  });

  it('is erased with its links, and leaves its cases alone', async () => {
    const { id, readId } = (await server.send('POST', '/api/plants', { plant: fernhollow })).body;
    const opened = await server.send('POST', '/api/cases', { plantId: id });
    expect((await server.send('DELETE', `/api/plants/${readId}`)).status).toBe(403);
    expect((await server.send('DELETE', `/api/plants/${id}`)).status).toBe(204);
    expect((await server.send('GET', `/api/plants/${readId}`)).status).toBe(410);
    expect((await server.send('GET', `/api/cases/${opened.body.id}`)).status).toBe(200);
  });

  it('is refused when it cannot be used, with the place', async () => {
    const { status, body } = await server.send('POST', '/api/plants', { plant: { line: [] } });
    expect([status, body.where]).toEqual([422, 'plant.line']);
  });
});
