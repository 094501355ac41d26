import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { pino } from 'pino';
import { InputError } from '../../shared/common/errors.ts';
import { rulesFolder } from '../rules/read.ts';
import { readConfig } from '../server/config.ts';
import { judgePool } from '../server/judge-pool.ts';
import { rulesJudge } from '../server/rules-judge.ts';
import { type Running, startServer } from '../server/start.ts';
import type { Io, Say } from './io.ts';
import { version } from './version.ts';
import { type Environment, toInputError } from './with-store.ts';

/** Runs `gaugewalk serve` until it is told to stop; exit code 0 after an orderly stop. */
export async function runServe(io: Io, say: Say, environment: Environment): Promise<number> {
  const config = readConfig(environment);
  const judge = judgePool(rulesJudge(() => new Date()));
  const webDir = join(dirname(rulesFolder()), 'dist', 'web');
  const running = await startServer({
    config,
    judge,
    log: pino({ level: config.logLevel, base: null }),
    version: version(),
    webDir: existsSync(webDir) ? webDir : undefined,
  }).catch((error: unknown) => {
    if (error instanceof InputError) throw error;
    if (isListenError(error))
      throw new InputError('PORT', `${config.host}:${config.port} cannot be used: ${error.code}`);
    return toInputError(config)(error);
  });
  io.err(`${say('server-listening', { url: running.url })}\n`);
  if (config.openPlainHttp) io.err(`${say('server-plain-http', { host: config.host })}\n`);
  judge.warm();
  await untilTold(running);
  await judge.stop();
  return 0;
}

/** Resolves when the process was asked to end and the server has stopped. A second request ends it at once. */
function untilTold(running: Running): Promise<void> {
  return new Promise((resolve, reject) => {
    for (const signal of ['SIGTERM', 'SIGINT'] as const) {
      process.once(signal, () => running.stop().then(resolve, reject));
    }
  });
}

const isListenError = (error: unknown): error is Error & { code: string } =>
  error instanceof Error && 'syscall' in error && error.syscall === 'listen' && 'code' in error;
