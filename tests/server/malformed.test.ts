import { randomUUID } from 'node:crypto';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { full, measured } from '../full.ts';
import { onBothStores, storeOpener } from '../store/stores.ts';
import { fernhollow } from './stand-in-judge.ts';
import { openedCase, type TestServer, testServer } from './test-server.ts';

/** Whole: 20 000 requests a store; otherwise a tenth. The seed makes a failure repeatable. */
const runs = full ? 20_000 : 2000;
const seed = 20261125;

/** What must never reach a sender: places in the code, the database's words, the stack. */
const inside =
  /node_modules|\.ts:|\bat [\w.]+ \(|sqlite|postgres|kysely|select |insert |undefined|\[object/i;

const strange = fc.oneof(
  fc.constantFrom(
    '',
    '\u0000',
    '\ud800',
    '%00',
    "' or 1=1 --",
    '../../etc/passwd',
    '__proto__',
    '1e999',
    '💧'.repeat(50),
  ),
  fc.string({ unit: 'binary', maxLength: 60 }),
);
const anyJson = fc.jsonValue({ maxDepth: 6, stringUnit: 'binary' });

/** Bodies that are not the JSON they should be. */
const brokenText = fc.oneof(
  fc.string({ unit: 'binary', maxLength: 200 }).filter((text) => !isJsonObject(text)),
  fc.constantFrom('{', '[', '{"a":1,}', 'null', '"text"', '12', '[]', '\u0000', '{"answerId":'),
  fc
    .integer({ min: 40, max: 5000 })
    .map((depth) => `{"plant":${'['.repeat(depth)}${']'.repeat(depth)}}`),
  fc.constantFrom('{"question":"smell","value":1e999}', '{"plant":{"line":[1e999]}}'),
);

function isJsonObject(text: string): boolean {
  try {
    const value: unknown = JSON.parse(text);
    return typeof value === 'object' && value !== null && !Array.isArray(value);
  } catch {
    return false;
  }
}

/** An answer with exactly one thing wrong. */
const brokenAnswer = fc
  .tuple(
    fc.constantFrom<Record<string, unknown>[]>(
      { answerId: 'not-a-uuid' },
      { answerId: 7 },
      { answerId: undefined },
      { question: '' },
      { question: 12 },
      { question: undefined },
      { at: 'yesterday' },
      { at: '2026-13-45T25:00:00Z' },
      { after: -1 },
      { after: 1.5 },
      { after: '0' },
    ),
    strange,
    anyJson,
  )
  .chain(([wrong, key, value]) =>
    fc.constantFrom<Record<string, unknown>[]>(
      { ...answer(), ...wrong },
      { ...answer(), [`x${key}`]: value },
      { ...answer(), question: `no-${key}` },
      { ...answer(), question: 'plant', value: { line: [value] } },
    ),
  );

const answer = (): Record<string, unknown> => ({
  answerId: randomUUID(),
  question: 'smell',
  value: 'none',
});

const brokenCase = fc.oneof(
  fc.tuple(strange, anyJson).map(([key, value]) => ({ [`x${key}`]: value })),
  anyJson
    .filter((value) => value !== null && !(typeof value === 'object' && 'line' in value))
    .map((plant) => ({ plant })),
  strange.map((language) => ({ language: `!${language}` })),
  anyJson.map((audience) => ({ audience: [audience] })),
  strange.map((plantId) => ({ plantId: `x${plantId}` })),
);

type Request = { method: string; path: string; body?: string; type?: string };

const requests = (id: string): fc.Arbitrary<Request> => {
  const answers = `/api/cases/${id}/answers`;
  const link = strange.map(
    (text) => encodeURIComponent(text.replace(/[\ud800-\udfff]/g, '?')) || 'x',
  );
  const json = (
    method: string,
    path: string,
    bodies: fc.Arbitrary<unknown>,
  ): fc.Arbitrary<Request> =>
    bodies.map((body) => ({
      method,
      path,
      body: typeof body === 'string' ? body : JSON.stringify(body),
      type: 'application/json',
    }));
  return fc.oneof(
    json('POST', answers, brokenText),
    json('POST', answers, brokenAnswer),
    json(
      'POST',
      answers,
      fc.integer({ min: 1 }).map((after) => ({ ...answer(), after })),
    ),
    json('POST', '/api/cases', brokenText),
    json('POST', '/api/cases', brokenCase),
    json('POST', '/api/plants', brokenCase),
    json(
      'POST',
      `/api/cases/${id}/withdraw`,
      anyJson.map((strengths) => ({ strengths: [strengths] })),
    ),
    json(
      'POST',
      `/api/cases/${id}/links`,
      anyJson.map((strength) => ({ strength: [strength] })),
    ),
    json(
      'POST',
      `/api/cases/${id}/rejudge`,
      strange.map((ruleSet) => ({ ruleSet: `x${ruleSet}` })),
    ),
    json(
      'POST',
      '/api/desk/sign-in',
      fc.tuple(strange, strange).map(([email, password]) => ({ email, password })),
    ),
    json('POST', '/api/desk/people', anyJson),
    fc
      .tuple(fc.constantFrom('GET', 'POST', 'DELETE', 'PUT', 'PATCH'), link)
      .map(([method, text]) => ({ method, path: `/api/cases/${text}` })),
    link.map((text) => ({ method: 'GET', path: `/api/plants/${text}` })),
    link.map((text) => ({ method: 'GET', path: `/api/desk/cases/${text}` })),
    link.map((text) => ({ method: 'GET', path: `/api/cases/${id}?audience=x${text}` })),
    link.map((text) => ({ method: 'GET', path: `/api/cases/${id}/events?seen=x${text}` })),
    link.map((text) => ({ method: 'GET', path: `/api/${text}` })),
    fc
      .constantFrom('text/plain', 'application/xml', 'multipart/form-data', 'application/jsonx', '')
      .map((type) => ({
        method: 'POST',
        path: answers,
        body: JSON.stringify(answer()),
        type,
      })),
  );
};

onBothStores(`${runs} malformed requests`, (place) => {
  const open = storeOpener(place);

  const send = async (
    { app }: TestServer,
    { method, path, body, type }: Request,
  ): Promise<Response> =>
    app.request(path, {
      method,
      ...(body !== undefined && { body }),
      headers: type === undefined ? {} : { 'content-type': type },
    });

  it(`get a 4xx problem document that tells nothing of the inside, and store nothing (seed ${seed})`, async () => {
    const server = await testServer(await open());
    const { id } = await openedCase(server, fernhollow);
    const statuses = new Map<number, number>();
    await fc.assert(
      fc.asyncProperty(requests(id), async (request) => {
        const response = await send(server, request);
        const text = await response.text();
        const seen = `${response.status} ${text}`;
        statuses.set(response.status, (statuses.get(response.status) ?? 0) + 1);
        expect(response.status, seen).toBeGreaterThanOrEqual(400);
        expect(response.status, seen).toBeLessThan(500);
        expect(response.headers.get('content-type'), seen).toBe('application/problem+json');
        const problem = JSON.parse(text) as {
          status: number;
          type: string;
          title: string;
          detail: string;
        };
        expect(problem.status).toBe(response.status);
        for (const member of [problem.type, problem.title, problem.detail])
          expect(typeof member).toBe('string');
        const echoed = [request.path, request.body ?? ''].some((sent) => inside.test(sent));
        if (!echoed) expect(text).not.toMatch(inside);
      }),
      { numRuns: runs, seed },
    );
    // The mixture reaches every kind of refusal; a run of only 404 would prove little.
    for (const status of [400, 401, 404, 409, 415, 422])
      expect(statuses.get(status) ?? 0, String(status)).toBeGreaterThan(runs / 400);
    expect((await server.send('GET', `/api/cases/${id}`)).body.case.answers).toEqual([]);
    measured(`malformed requests, each a 4xx problem (${place.kind})`, runs, 'requests');
  }, 600_000);

  it('refuses a body past the limit', async () => {
    const server = await testServer(await open());
    const { status } = await server.send('POST', '/api/cases', { plant: 'x'.repeat(300_000) });
    expect(status).toBe(413);
  });
});
