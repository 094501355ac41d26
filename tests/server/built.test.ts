import { spawn, spawnSync } from 'node:child_process';
import { randomUUID } from 'node:crypto';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { twoGauges } from '../two-gauges.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const out = join(root, 'node_modules', '.cache', `gaugewalk-built-${process.pid}`);

describe('gaugewalk serve as it is shipped, in plain Node with the real rules', () => {
  const dataDir = mkdtempSync(join(tmpdir(), 'gaugewalk-built-'));
  let url: string;
  let end: () => Promise<number | null>;

  beforeAll(async () => {
    const tsc = join(root, 'node_modules', '.bin', 'tsc');
    // What matters is that it runs; whether the types hold is `npm run types`' to say.
    spawnSync(tsc, ['-p', 'tsconfig.build.json', '--outDir', out], { cwd: root });
    writeFileSync(join(out, 'package.json'), '{ "type": "module" }');
    writeFileSync(
      join(out, 'run.js'),
      "import { main } from './src/cli/main.js'; process.exitCode = await main(['serve']);",
    );
    const child = spawn(process.execPath, [join(out, 'run.js')], {
      env: { PATH: process.env.PATH, PORT: '0', DATA_DIR: dataDir, LOG_LEVEL: 'warn' },
      stdio: ['ignore', 'ignore', 'pipe'],
    });
    const ended = new Promise<number | null>((resolve) => child.once('exit', resolve));
    end = () => {
      child.kill('SIGTERM');
      return ended;
    };
    url = await new Promise<string>((resolve, reject) => {
      createInterface({ input: child.stderr }).on('line', (line) => {
        const found = /http:\/\/\S+\d/.exec(line);
        if (found) resolve(found[0]);
      });
      void ended.then((code) => reject(new Error(`ended with ${code}`)));
    });
  }, 120_000);
  afterAll(() => {
    rmSync(out, { recursive: true, force: true });
    rmSync(dataDir, { recursive: true, force: true });
  });

  const send = async (path: string, body?: unknown) => {
    const response = await fetch(`${url}${path}`, {
      ...(body !== undefined && { method: 'POST', body: JSON.stringify(body) }),
      headers: { 'content-type': 'application/json' },
    });
    // biome-ignore lint/suspicious/noExplicitAny: a JSON document
    return { status: response.status, body: (await response.json()) as any };
  };
  const answer = (question: string, value: unknown) => ({
    answerId: randomUUID(),
    question,
    value,
  });

  it('finds the blocked sediment filter from answers over HTTP', async () => {
    const { id } = (await send('/api/cases', { plant: twoGauges })).body;
    const answers = `/api/cases/${id}/answers`;
    await send(answers, answer('danger', []));
    await send(answers, answer('complaint', ['weak']));
    await send(answers, answer('readings', { taps: 'closed', bar: { G1: 3.4, G2: 3.4 } }));
    const { status, body } = await send(
      answers,
      answer('readings', { taps: { open: 1 }, bar: { G1: 3.3, G2: 1.1 } }),
    );
    expect([status, body.causes[0].id]).toEqual([200, 'sediment-blocked']);
    expect((await send(`/api/cases/${id}`)).body.view).toEqual(body);
  });

  it('names the place of what it cannot use, found while checking or while judging', async () => {
    const { id } = (await send('/api/cases', { plant: twoGauges })).body;
    const gauge = await send(
      `/api/cases/${id}/answers`,
      answer('readings', { taps: 'closed', bar: { G9: 1 } }),
    );
    expect([gauge.status, gauge.body.where]).toEqual([422, 'value.bar.G9']);
    const language = await send(`/api/cases/${id}?language=xx`);
    expect([language.status, language.body.where]).toEqual([422, 'language']);
    const noHouse = await send('/api/cases', {
      plant: { name: 'x', line: [{ id: 'tank', kind: 'tank' }] },
    });
    expect(noHouse.status).toBe(422);
    expect(noHouse.body.where).toMatch(/^plant/);
  });

  it('opens a case before the plant is described', async () => {
    const { status, body } = await send('/api/cases', {});
    expect(status).toBe(201);
    expect(body.view.next.question).toBe('danger');
  });

  it('answers others at once while it judges many cases', async () => {
    const judging = Promise.all(
      Array.from({ length: 12 }, (_, i) =>
        send('/api/cases', { plant: { ...twoGauges, altitudeM: 100 + i } }),
      ),
    );
    const slowest = { ms: 0 };
    let done = false;
    const finished = judging.then((all) => {
      done = true;
      return all;
    });
    while (!done) {
      const asked = performance.now();
      await send('/health');
      slowest.ms = Math.max(slowest.ms, performance.now() - asked);
    }
    for (const { status } of await finished) expect(status).toBe(201);
    expect(slowest.ms).toBeLessThan(1000);
  });

  it('stops in order', async () => {
    expect(await end()).toBe(0);
  });
});
