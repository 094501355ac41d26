import { randomUUID } from 'node:crypto';
import { type Logger, pino } from 'pino';
import { createApp } from '../../src/server/app.ts';
import { createAuth } from '../../src/server/auth.ts';
import type { Deps } from '../../src/server/deps.ts';
import { createMetrics } from '../../src/server/metrics.ts';
import type { App } from '../../src/server/routes/open-api-app.ts';
import { newToken } from '../../src/server/tokens.ts';
import type { Store } from '../../src/store/store.ts';
import { standInJudge } from './stand-in-judge.ts';

/** The app over a real store, driven without a port. */
export interface TestServer {
  readonly app: App;
  readonly deps: Deps;
  readonly logged: () => string;
  send(
    method: string,
    path: string,
    body?: unknown,
    headers?: Record<string, string>,
  ): Promise<Sent>;
}

// biome-ignore lint/suspicious/noExplicitAny: tests look into whatever JSON came back
export type Sent = { status: number; headers: Headers; body: any };

export async function testServer(store: Store, change: Partial<Deps> = {}): Promise<TestServer> {
  const lines: string[] = [];
  const log: Logger = pino({ level: 'debug' }, { write: (line: string) => lines.push(line) });
  const publicUrl = 'http://127.0.0.1:8080';
  const deps: Deps = {
    store,
    judge: standInJudge,
    auth: await createAuth(store, publicUrl),
    log,
    metrics: createMetrics(),
    clock: () => new Date(),
    newRef: randomUUID,
    newToken,
    limits: { casesPerTenMinutes: 100_000, signInsPerTenMinutes: 100_000 },
    secret: 'a secret of the tests',
    trustProxy: false,
    publicUrl,
    webhook: false,
    stopping: new AbortController().signal,
    ...change,
  };
  const app = createApp(deps, '0-test');
  return {
    app,
    deps,
    logged: () => lines.join(''),
    async send(method, path, body, headers = {}) {
      const response = await app.request(path, {
        method,
        headers: { ...(body !== undefined && { 'content-type': 'application/json' }), ...headers },
        ...(body !== undefined && { body: typeof body === 'string' ? body : JSON.stringify(body) }),
      });
      const text = await response.text();
      const json = response.headers.get('content-type')?.includes('json');
      return {
        status: response.status,
        headers: response.headers,
        body: json ? JSON.parse(text) : text,
      };
    },
  };
}

/** Opens a case and returns its links. */
export async function openedCase(
  server: TestServer,
  plant?: unknown,
): Promise<{ id: string; readId: string }> {
  const { status, body } = await server.send(
    'POST',
    '/api/cases',
    plant === undefined ? {} : { plant },
  );
  if (status !== 201) throw new Error(`${status} ${JSON.stringify(body)}`);
  return body as { id: string; readId: string };
}

export const answerTo = (question: string, value: unknown, more: object = {}): object => ({
  answerId: randomUUID(),
  question,
  value,
  ...more,
});
