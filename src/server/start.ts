import { randomUUID } from 'node:crypto';
import type { AddressInfo } from 'node:net';
import { createAdaptorServer, type ServerType } from '@hono/node-server';
import type { Logger } from 'pino';
import { dropOldCounts } from '../store/repositories/rate-counts.ts';
import { sharedSecret } from '../store/repositories/settings.ts';
import { openStore } from '../store/store.ts';
import { createApp } from './app.ts';
import { createAuth } from './auth.ts';
import type { Config } from './config.ts';
import type { Deps } from './deps.ts';
import type { Judge } from './judge.ts';
import { createMetrics } from './metrics.ts';
import { catchUp, createLatest } from './services/latest.ts';
import { createViews } from './services/views.ts';
import { newToken } from './tokens.ts';
import { deliverDue } from './webhook/deliver.ts';

const GRACE_MS = 10_000;
const IDLE_CHECK_MS = 50;
const WEBHOOK_EVERY_MS = 1000;
const CATCH_UP_EVERY_MS = 30_000;
const TIDY_EVERY_MS = 10 * 60 * 1000;

export interface Running {
  /** where it listens, e.g. http://127.0.0.1:8080 */
  readonly url: string;
  /** Takes no more requests, ends live connections, lets running requests finish (ten seconds), closes the store. */
  stop(): Promise<void>;
}

export interface StartOptions {
  readonly config: Config;
  readonly judge: Judge;
  readonly log: Logger;
  readonly version: string;
  readonly webDir?: string | undefined;
}

/** Opens the store, brings it to the newest form, and listens. */
export async function startServer({
  config,
  judge,
  log,
  version,
  webDir,
}: StartOptions): Promise<Running> {
  const onError = (error: Error): void =>
    log.warn({ error: error.message }, 'store connection lost');
  const store = await openStore({
    databaseUrl: config.databaseUrl,
    dataDir: config.dataDir,
    onError,
  });
  const stopping = new AbortController();
  const metrics = createMetrics(true);
  const clock = (): Date => new Date();
  const shown = config.host.includes(':') ? `[${config.host}]` : config.host;
  const publicUrl = config.publicUrl ?? `http://${shown}:${config.port}`;
  const deps: Deps = {
    store,
    judge,
    log,
    metrics,
    clock,
    auth: await createAuth(store, publicUrl),
    newRef: randomUUID,
    newToken,
    limits: {
      casesPerTenMinutes: config.casesPerTenMinutes,
      signInsPerTenMinutes: config.signInsPerTenMinutes,
    },
    secret: await sharedSecret(store.db, 'count-secret'),
    trustProxy: config.trustProxy,
    publicUrl,
    webhook: config.webhook !== undefined,
    webDir,
    stopping: stopping.signal,
  };
  const app = createApp(deps, version);

  const server = createAdaptorServer({ fetch: app.fetch });
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject);
    server.listen(config.port, config.host, resolve);
  }).catch(async (error: unknown) => {
    await store.close();
    throw error;
  });

  const { webhook } = config;
  const latest = createLatest(deps, createViews(deps));
  const jobs = [
    repeat(TIDY_EVERY_MS, () => dropOldCounts(store.db, Math.floor(clock().getTime() / 1000)), log),
    repeat(CATCH_UP_EVERY_MS, () => catchUp(deps, latest), log),
    webhook &&
      repeat(
        WEBHOOK_EVERY_MS,
        () =>
          deliverDue({
            ...{ store, log, metrics, clock, fetch, stopping: stopping.signal },
            ...webhook,
          }),
        log,
      ),
  ];

  const { port } = server.address() as AddressInfo;
  return {
    url: `http://${shown}:${port}`,
    async stop() {
      stopping.abort();
      await Promise.all([closeServer(server), ...jobs.map((job) => job?.())]);
      await store.close();
    },
  };
}

/** Takes no more connections and resolves when the last is gone; those still busy after ten seconds are cut. */
async function closeServer(server: ServerType): Promise<void> {
  const closed = new Promise<void>((resolve) => server.close(() => resolve()));
  // A connection kept alive becomes idle only when its last answer is out, so this is done again and again.
  const idle = setInterval(
    () => 'closeIdleConnections' in server && server.closeIdleConnections(),
    IDLE_CHECK_MS,
  );
  const cut = setTimeout(
    () => 'closeAllConnections' in server && server.closeAllConnections(),
    GRACE_MS,
  );
  await closed;
  clearInterval(idle);
  clearTimeout(cut);
}

/** Runs `work` again and again, never twice at once. Returns the way to stop, which waits for a run under way. */
function repeat(everyMs: number, work: () => Promise<unknown>, log: Logger): () => Promise<void> {
  let running: Promise<unknown> | undefined;
  const timer = setInterval(() => {
    running ??= work()
      .catch((error: unknown) =>
        log.warn(
          { error: error instanceof Error ? error.message : 'failed' },
          'repeated work failed',
        ),
      )
      .finally(() => {
        running = undefined;
      });
  }, everyMs);
  return async () => {
    clearInterval(timer);
    await running;
  };
}
