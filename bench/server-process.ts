import { createAdaptorServer } from '@hono/node-server';
import { Hono } from 'hono';
import { pino } from 'pino';
import { readConfig } from '../src/server/config.ts';
import type { Judge } from '../src/server/judge.ts';
import { judgePool } from '../src/server/judge-pool.ts';
// The thread's file is found by its path, so the compiler has to be told of it.
import type {} from '../src/server/judge-worker.ts';
import { rulesJudge } from '../src/server/rules-judge.ts';
import { startServer } from '../src/server/start.ts';

/**
 * One of the servers that are measured, as a process of its own: `echo` gives a JSON body back through the same HTTP
 * library and does nothing else; `store` is the whole server with a diagnosis that costs nothing; `whole` is the server
 * as it is shipped.
 */
const kind = process.argv[2];
const config = readConfig(process.env);

const free: Judge = {
  ruleSets: ['2026-12-01'],
  validate: () => undefined,
  computeView: ({ ruleSet }) => ({
    ruleSet,
    today: '2026-11-25',
    causes: [{ id: 'nothing-wrong', probability: 1 }],
    next: { question: 'smell' },
    plan: [],
    dispatch: { decision: 'phone', priority: 'normal' },
    stopped: null,
  }),
};

if (kind === 'echo') {
  const app = new Hono();
  app.post('*', async (c) => c.json(await c.req.json()));
  const server = createAdaptorServer({ fetch: app.fetch });
  server.listen(0, '127.0.0.1', () => {
    const address = server.address();
    if (address && typeof address === 'object') say(`http://127.0.0.1:${address.port}`);
  });
} else {
  const judge = kind === 'whole' ? judgePool(rulesJudge(() => new Date())) : free;
  const log = pino({ level: config.logLevel });
  say((await startServer({ config, judge, log, version: 'bench' })).url);
}

function say(url: string): void {
  process.stdout.write(`${url}\n`);
}
