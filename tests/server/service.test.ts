import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openStore, type Store } from '../../src/store/store.ts';
import { standInJudge } from './stand-in-judge.ts';
import { openedCase, type TestServer, testServer } from './test-server.ts';

describe('the server', () => {
  let store: Store;
  let server: TestServer;
  beforeAll(async () => {
    store = await openStore({ dataDir: ':memory:' });
    server = await testServer(store);
  });
  afterAll(() => store.close());

  describe('GET /openapi.json', () => {
    // biome-ignore lint/suspicious/noExplicitAny: a JSON document
    let document: any;
    beforeAll(async () => {
      document = (await server.send('GET', '/openapi.json')).body;
    });

    it('describes every route there is', () => {
      expect(document.openapi).toBe('3.1.0');
      const described = Object.entries<object>(document.paths).flatMap(([path, methods]) =>
        Object.keys(methods).map(
          (method) => `${method.toUpperCase()} ${path.replace(/\{(\w+)\}/g, ':$1')}`,
        ),
      );
      const served = server.app.routes
        .filter(
          ({ method, path }) => method !== 'ALL' && !path.includes('*') && path !== '/openapi.json',
        )
        .map(({ method, path }) => `${method} ${path}`);
      expect(new Set(described)).toEqual(new Set(served));
      expect(described.length).toBeGreaterThan(30);
    });

    it('holds the answer’s shape from the schema that checks it, and the webhook’s payload', () => {
      expect(document.components.schemas.NewAnswer).toMatchObject({
        additionalProperties: false,
        required: expect.arrayContaining(['answerId', 'question']),
        properties: { after: { type: 'integer', minimum: 0 } },
      });
      expect(document.webhooks.caseStateChanged.post.requestBody).toBeDefined();
    });

    it('names only schemas it holds', () => {
      const named = [...JSON.stringify(document).matchAll(/#\/components\/schemas\/(\w+)/g)].map(
        (match) => match[1],
      );
      expect(named.length).toBeGreaterThan(50);
      for (const name of named) expect(document.components.schemas).toHaveProperty(String(name));
    });

    it('gives every route that can fail a problem document', () => {
      for (const [path, methods] of Object.entries<
        Record<string, { responses: Record<string, { content?: object }> }>
      >(document.paths)) {
        for (const [method, { responses }] of Object.entries(methods)) {
          for (const [status, { content }] of Object.entries(responses)) {
            if (Number(status) < 400) continue;
            expect(Object.keys(content ?? {}), `${method} ${path} ${status}`).toEqual([
              'application/problem+json',
            ]);
          }
        }
      }
    });
  });

  it('is healthy while it lives, and ready while the store answers and it is not stopping', async () => {
    expect((await server.send('GET', '/health')).body).toEqual({ status: 'ok' });
    expect((await server.send('GET', '/ready')).body).toMatchObject({
      status: 'ready',
      store: 'sqlite',
    });
    const closed = await openStore({ dataDir: ':memory:' });
    const broken = await testServer(closed);
    const stopping = new AbortController();
    const ending = await testServer(store, { stopping: stopping.signal });
    await closed.close();
    stopping.abort();
    expect((await broken.send('GET', '/health')).status).toBe(200);
    expect((await broken.send('GET', '/ready')).status).toBeGreaterThanOrEqual(500);
    expect((await ending.send('GET', '/ready')).status).toBe(503);
  });

  it('says when cases stand on a rule set it lacks', async () => {
    const own = await openStore({ dataDir: ':memory:' });
    await openedCase(await testServer(own));
    const older = await testServer(own, { judge: { ...standInJudge, ruleSets: ['2026-01-01'] } });
    expect((await older.send('GET', '/ready')).body.missingRuleSets).toEqual(['2026-12-01']);
    await own.close();
  });

  it('counts in the Prometheus text format, by route and never by link', async () => {
    const { id } = await openedCase(server);
    await server.send('GET', `/api/cases/${id}`);
    const { headers, body } = await server.send('GET', '/metrics');
    expect(headers.get('content-type')).toContain('text/plain; version=0.0.4');
    expect(body).toMatch(
      /gaugewalk_http_requests_total\{method="GET",route="\/api\/cases\/:id",status="200"\} \d+/,
    );
    expect(body).not.toContain(id);
    // https://prometheus.io/docs/instrumenting/exposition_formats/: comments, or a name, labels and a number
    const line =
      /^(# (HELP|TYPE) \S+ .+|[a-zA-Z_:][\w:]*(\{([a-zA-Z_]\w*="(\\.|[^"\\])*",?)*\})? (\+Inf|NaN|[-+.\de]+))$/;
    for (const text of body.trim().split('\n'))
      expect(text === '' || line.test(text), text).toBe(true);
  });

  it('tells browsers to run only its own files, to frame nothing and to tell no address on', async () => {
    const { headers } = await server.send('GET', '/health');
    const policy = headers.get('content-security-policy') ?? '';
    expect(policy).toContain("default-src 'self'");
    expect(policy).toContain("frame-ancestors 'none'");
    expect(policy).not.toContain('unsafe');
    expect(headers.get('referrer-policy')).toBe('no-referrer');
    expect(headers.get('x-content-type-options')).toBe('nosniff');
    expect(headers.get('strict-transport-security')).toBeNull();
    const https = await testServer(store, { publicUrl: 'https://water.example' });
    expect((await https.send('GET', '/health')).headers.get('strict-transport-security')).toContain(
      'max-age',
    );
  });

  it('keeps answers out of caches', async () => {
    const { id } = await openedCase(server);
    expect((await server.send('GET', `/api/cases/${id}`)).headers.get('cache-control')).toBe(
      'no-store',
    );
  });

  it('turns an error nobody expected into a bare 500 and keeps the cause for the log', async () => {
    const judge = {
      ...standInJudge,
      computeView: () => {
        throw new Error('the inside at /secret/path');
      },
    };
    const broken = await testServer(store, { judge });
    const { status, body, headers } = await broken.send('POST', '/api/cases', {});
    expect([status, headers.get('content-type')]).toEqual([500, 'application/problem+json']);
    expect(JSON.stringify(body)).not.toContain('secret');
    expect(broken.logged()).toContain('the inside at /secret/path');
  });

  it('answers 503 with Retry-After when the store is away', async () => {
    const away = Object.assign(new Error('connect ECONNREFUSED'), { code: 'ECONNREFUSED' });
    const gone = await testServer({ ...store, write: () => Promise.reject(away) });
    const { status, headers } = await gone.send('POST', '/api/cases', {});
    expect([status, headers.get('retry-after')]).toEqual([503, '5']);
  });

  describe('with a built web client', () => {
    const webDir = mkdtempSync(join(tmpdir(), 'gaugewalk-web-'));
    mkdirSync(join(webDir, 'assets'));
    writeFileSync(join(webDir, 'index.html'), '<!doctype html><title>page</title>');
    writeFileSync(join(webDir, 'assets', 'main-a1b2.js'), 'export {};');
    afterAll(() => rmSync(webDir, { recursive: true }));

    it.each([
      ['/', 'text/html', 200, 'no-cache'],
      ['/case/whatever', 'text/html', 200, 'no-cache'],
      ['/assets/main-a1b2.js', '*/*', 200, 'public, max-age=31536000, immutable'],
      ['/assets/gone.js', '*/*', 404, 'no-store'],
      ['/../../etc/passwd', '*/*', 404, 'no-store'],
      ['/%2e%2e/%2e%2e/etc/passwd', '*/*', 404, 'no-store'],
      ['/api/nothing', 'text/html', 404, 'no-store'],
    ])('answers %s (%s) with %i', async (path, accept, status, cache) => {
      const web = await testServer(store, { webDir });
      const sent = await web.send('GET', path, undefined, { accept });
      expect([sent.status, sent.headers.get('cache-control')]).toEqual([status, cache]);
    });
  });
});
