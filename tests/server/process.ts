import { pino } from 'pino';
import { readConfig } from '../../src/server/config.ts';
import { startServer } from '../../src/server/start.ts';
import { standInJudge } from './stand-in-judge.ts';

/** A whole server as a process of its own, for tests that kill it. Says where it listens on its first line. */
const config = readConfig(process.env);
const log = pino({ level: config.logLevel }, pino.destination(2));
const running = await startServer({ config, judge: standInJudge, log, version: '0-test' });
process.stdout.write(`${running.url}\n`);
process.once('SIGTERM', () => {
  void running.stop().then(() => process.exit(0));
});
