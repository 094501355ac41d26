import { execFile } from 'node:child_process';
import { createHmac } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { expect, it } from 'vitest';
import { type StateChange, webhookMessage } from '../../src/server/services/webhook-message.ts';
import { signedHeaders } from '../../src/server/webhook/sign.ts';
import { agent, openSite } from '../browser/site.ts';

/** The examples of the handbook for whoever runs a server, run. */
const text = readFileSync(join(import.meta.dirname, '../../docs/running.md'), 'utf8');
const blocks = (language: string): string[] =>
  [...text.matchAll(new RegExp(`^\`\`\`${language}\n(.*?)^\`\`\``, 'gms'))].map(
    ([, code = '']) => code,
  );
const [verify = '', script = ''] = blocks('js');

it('shows a webhook message with the fields that are sent, and no other', () => {
  const [shown = ''] = blocks('json');
  const change = {
    row: { ref: '3f8e1b0a-6c1d-4f7e-9a55-0d2b8c7e4a91', plant_ref: null },
    ...{ version: 7, from: 'asking', to: 'planned', now: '2026-11-25T08:00:00.000Z' },
    view: {
      causes: [{ id: 'sediment-blocked', probability: 0.9 }],
      dispatch: { decision: 'phone', priority: 'normal' },
      ruleSet: '2026-12-01',
    },
  } as unknown as StateChange;
  expect(JSON.parse(shown)).toEqual(webhookMessage(change));
});

it('tells our webhook messages from others', async () => {
  const { isOurs } = (await import(`data:text/javascript,${encodeURIComponent(verify)}`)) as {
    isOurs: (secret: string, headers: object, body: string, now?: number) => boolean;
  };
  const secret = `whsec_${Buffer.from('thirty-two bytes of no secret...').toString('base64')}`;
  const at = new Date('2026-11-25T08:00:00Z');
  const headers = signedHeaders(secret, 'a message', at, '{"a":1}');
  expect(isOurs(secret, headers, '{"a":1}', at.getTime())).toBe(true);
  expect(isOurs(secret, headers, '{"a":2}', at.getTime())).toBe(false);
  expect(isOurs(secret, headers, '{"a":1}', at.getTime() + 600_000)).toBe(false);
  const other = `whsec_${createHmac('sha256', 'x').digest('base64')}`;
  expect(isOurs(other, headers, '{"a":1}', at.getTime())).toBe(false);
});

it('lists from a script what is urgent and nobody has', async () => {
  const site = await openSite();
  try {
    const opened = async (name: string, answers: readonly object[]) => {
      const post = async (path: string, body: object) =>
        (
          await fetch(`${site.url}${path}`, {
            method: 'POST',
            headers: { 'content-type': 'application/json' },
            body: JSON.stringify(body),
          })
        ).json();
      const line = [
        { id: 'tank', kind: 'tank' },
        { id: 'house', kind: 'house' },
      ];
      const { id } = (await post('/api/cases', { plant: { name, line } })) as { id: string };
      for (const answer of answers)
        await post(`/api/cases/${id}/answers`, { answerId: crypto.randomUUID(), ...answer });
    };
    await opened('A quiet house', [{ question: 'danger', value: [] }]);
    await opened('The house by the mill', [{ question: 'danger', value: ['shock'] }]);
    const { stdout } = await promisify(execFile)(
      process.execPath,
      ['--input-type=module', '-e', script],
      { env: { GAUGEWALK_URL: site.url, EMAIL: agent.email, PASSWORD: agent.password } },
    );
    expect(stdout).toMatch(/^[0-9a-f-]{36} stopped The house by the mill\n$/);
  } finally {
    await site.end();
  }
});
