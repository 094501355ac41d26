import { createHmac, randomUUID } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { deliverDue, RETRY_AFTER_MS } from '../../src/server/webhook/deliver.ts';
import { signedHeaders } from '../../src/server/webhook/sign.ts';
import { onBothStores, storeOpener } from '../store/stores.ts';
import { fernhollow } from './stand-in-judge.ts';
import { answerTo, openedCase, testServer } from './test-server.ts';

const secret = `whsec_${Buffer.from('thirty-two bytes of no secret...').toString('base64')}`;

describe('a signature', () => {
  it('is the one worked out by hand after the Standard Webhooks specification', () => {
    // https://github.com/standard-webhooks/standard-webhooks/blob/main/spec/standard-webhooks.md: "v1," and the
    // base64 of HMAC-SHA256 over id.timestamp.payload with the bytes after "whsec_". The example's values are the
    // specification's own (from memory); the expected signature is computed here, by another route.
    const id = 'msg_p5jXN8AQM9LWM0D4loKWxJek';
    const body = '{"test": 2432232314}';
    const headers = signedHeaders(
      'whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw',
      id,
      new Date(1614265330_000),
      body,
    );
    const key = Buffer.from('MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw', 'base64');
    const expected = createHmac('sha256', key).update(`${id}.1614265330.${body}`).digest('base64');
    expect(headers).toEqual({
      'webhook-id': id,
      'webhook-timestamp': '1614265330',
      'webhook-signature': `v1,${expected}`,
    });
    expect(headers['webhook-signature']).toBe('v1,g0hM9SsE+OTPJTGt/tmIKtSyZlE3uFJELVlNIOLJ1OE=');
  });
});

onBothStores('webhook messages', (place) => {
  const open = storeOpener(place);

  /** A server with a webhook whose receiver and clock the test holds. */
  const withWebhook = async () => {
    let now = Date.parse('2026-11-25T08:00:00Z');
    const clock = (): Date => new Date(now);
    const server = await testServer(await open(), { webhook: true, clock });
    const received: {
      id: string;
      type: string;
      from: string | null;
      to: string;
      body: string;
      headers: Headers;
    }[] = [];
    let status = 200;
    const stopping = new AbortController();
    let stopsAtNext = false;
    const fetch: typeof globalThis.fetch = async (_, init) => {
      const headers = new Headers(init?.headers);
      const body = String(init?.body);
      const { type, data } = JSON.parse(body);
      received.push({
        id: headers.get('webhook-id') ?? '',
        type,
        from: data.from,
        to: data.to,
        body,
        headers,
      });
      if (stopsAtNext) stopping.abort();
      return new Response(null, { status });
    };
    const { store, log, metrics } = server.deps;
    return {
      server,
      received,
      stopAtNext: () => {
        stopsAtNext = true;
      },
      answerWith: (code: number) => {
        status = code;
      },
      wait: (ms: number) => {
        now += ms;
      },
      deliver: () =>
        deliverDue({
          store,
          log,
          metrics,
          clock,
          fetch,
          stopping: stopping.signal,
          url: 'https://calls.example/hook',
          secret,
        }),
    };
  };

  it('tell each change of state once, signed, and nothing about persons or links', async () => {
    const { server, received, deliver } = await withWebhook();
    const { id, readId } = await openedCase(server, fernhollow);
    await server.send('POST', `/api/cases/${id}/answers`, answerTo('smell', 'none')); // no change of state
    await server.send('POST', `/api/cases/${id}/answers`, answerTo('danger', ['shock']));
    await deliver();
    await deliver();
    expect(received.map(({ type, from, to }) => [type, from, to])).toEqual([
      ['case.state-changed', null, 'asking'],
      ['case.state-changed', 'asking', 'stopped'],
    ]);
    for (const { body, headers } of received) {
      const [message, at] = [
        headers.get('webhook-id') ?? '',
        Number(headers.get('webhook-timestamp')),
      ];
      expect(headers.get('webhook-signature')).toBe(
        signedHeaders(secret, message, new Date(at * 1000), body)['webhook-signature'],
      );
      for (const link of [id, readId]) expect(body).not.toContain(link);
    }
  });

  it('wait for the next start when the server stops: the one under way is the last', async () => {
    const { server, received, deliver, stopAtNext } = await withWebhook();
    await openedCase(server, fernhollow);
    await openedCase(server, fernhollow);
    stopAtNext();
    await deliver();
    await deliver();
    expect(received).toHaveLength(1);
  });

  it('are tried again later and later until received, under the same id', async () => {
    const { server, received, deliver, wait, answerWith } = await withWebhook();
    await openedCase(server, fernhollow);
    answerWith(500);
    await deliver();
    await deliver(); // not due yet
    expect(received).toHaveLength(1);
    wait(RETRY_AFTER_MS[0]);
    await deliver();
    wait(RETRY_AFTER_MS[1] - 1000);
    await deliver();
    expect(received).toHaveLength(2);
    answerWith(204);
    wait(1000);
    await deliver();
    wait(10 * RETRY_AFTER_MS[6]);
    await deliver();
    expect(received).toHaveLength(3);
    expect(new Set(received.map((message) => message.id)).size).toBe(1);
  });

  it('are given up after the last try', async () => {
    const { server, received, deliver, wait, answerWith } = await withWebhook();
    await openedCase(server, fernhollow);
    answerWith(500);
    for (let i = 0; i < 20; i += 1) {
      await deliver();
      wait(2 * RETRY_AFTER_MS[6]);
    }
    expect(received).toHaveLength(RETRY_AFTER_MS.length + 1);
  });

  it('go once though two servers deliver at the same moment', async () => {
    const { server, received, deliver } = await withWebhook();
    for (let i = 0; i < 10; i += 1) await openedCase(server, { ...fernhollow, name: randomUUID() });
    await Promise.all([deliver(), deliver()]);
    expect(received).toHaveLength(10);
    expect(new Set(received.map((message) => message.id)).size).toBe(10);
  });
});
