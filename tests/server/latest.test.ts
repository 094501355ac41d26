import { setTimeout as pause } from 'node:timers/promises';
import { expect, it } from 'vitest';
import type { Judge } from '../../src/server/judge.ts';
import { append } from '../../src/server/services/append.ts';
import { closeCase } from '../../src/server/services/desk-work.ts';
import { catchUp, createLatest } from '../../src/server/services/latest.ts';
import { createViews } from '../../src/server/services/views.ts';
import { onBothStores, storeOpener } from '../store/stores.ts';
import { fernhollow, standInJudge } from './stand-in-judge.ts';
import { answerTo, openedCase, testServer } from './test-server.ts';

onBothStores('the view of a case', (place) => {
  const open = storeOpener(place);

  it('is computed once for many who answer while it is being computed, with each one’s answer in it', async () => {
    let computed = 0;
    const slow: Judge = {
      ...standInJudge,
      async computeView(input) {
        computed += 1;
        await pause(60);
        return standInJudge.computeView(input);
      },
    };
    const server = await testServer(await open(), { judge: slow });
    const { id } = await openedCase(server, fernhollow);
    computed = 0;
    const clients = 30;
    const sent = await Promise.all(
      Array.from({ length: clients }, async (_, i) => {
        const said = `smell="client ${i}"`;
        const { status, body } = await server.send(
          'POST',
          `/api/cases/${id}/answers`,
          answerTo('smell', `client ${i}`),
        );
        return { status, mine: (body.said as string[]).includes(said) };
      }),
    );
    expect(sent).toEqual(Array.from({ length: clients }, () => ({ status: 200, mine: true })));
    expect(computed).toBeLessThan(clients / 2);
  });

  it('is judged again after a closing that did not know of an answer given meanwhile', async () => {
    const server = await testServer(await open());
    await openedCase(server, fernhollow);
    const { deps } = server;
    const { ref } = await deps.store.db.selectFrom('cases').select('ref').executeTakeFirstOrThrow();
    const latest = createLatest(deps, createViews(deps));
    const answer = answerTo('danger', ['shock']) as Parameters<typeof append>[2];
    const quicker: typeof latest = async (asked) => {
      const seen = await latest(asked);
      await append(deps, ref, answer, undefined);
      return seen;
    };
    await closeCase(deps, quicker, ref, 'settled');
    await latest(ref);
    const { state } = await deps.store.db
      .selectFrom('cases')
      .select('state')
      .executeTakeFirstOrThrow();
    expect(state).toBe('stopped');
  });

  it('is made good when the server that stored the answer died before it judged it', async () => {
    const server = await testServer(await open());
    const { id } = await openedCase(server, fernhollow);
    const { db } = server.deps.store;
    const { ref } = await db.selectFrom('cases').select('ref').executeTakeFirstOrThrow();
    const answer = answerTo('danger', ['shock']) as Parameters<typeof append>[2];
    await append(server.deps, ref, answer, undefined); // stored, and here the server dies
    const states = async () => {
      const row = await db
        .selectFrom('cases')
        .select(['state', 'judged_count'])
        .executeTakeFirstOrThrow();
      return [row.state, row.judged_count];
    };
    expect(await states()).toEqual(['asking', 0]);
    expect((await server.send('GET', `/api/cases/${id}`)).body.case.state).toBe('stopped'); // told right all the while

    const later = { ...server.deps, clock: () => new Date(Date.now() + 3_600_000) };
    await catchUp(later, createLatest(later, createViews(later)));
    expect(await states()).toEqual(['stopped', 1]);
  });
});
