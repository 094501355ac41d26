import { type ChildProcess, spawn } from 'node:child_process';
import { randomUUID } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { startPostgres } from '../tests/store/postgres.ts';
import { twoGauges } from '../tests/two-gauges.ts';

/**
 * Answers a second, on both stores, beside a bare echo through the same HTTP library, in one run and taking turns, so
 * that whatever else the machine does weighs on all. The client runs on the same machine and costs all of them the
 * same. A ratio below 1 is the price of storing: each answer is synced to the disk before it is acknowledged.
 */
const ROUNDS = 3;
const ROUND_MS = 3000;
const CLIENTS = 16;
/** a case holds some ten to twenty answers */
const ANSWERS_A_CASE = 15;

interface Contender {
  readonly name: string;
  readonly kind: 'echo' | 'store' | 'whole';
  readonly url: string;
  readonly process: ChildProcess;
  readonly perSecond: number[];
}

const folder = mkdtempSync(join(tmpdir(), 'gaugewalk-bench-'));
const postgres = await startPostgres();
const contenders: Contender[] = [];
try {
  contenders.push(await start('bare echo', 'echo'));
  contenders.push(await start('SQLite', 'store'));
  contenders.push(await start('PostgreSQL', 'store', await postgres.newDatabase()));
  contenders.push(await start('SQLite with the diagnosis', 'whole'));
  for (const contender of contenders) await round(contender, ROUND_MS / 3); // warm
  for (let i = 0; i < ROUNDS; i += 1) {
    for (const contender of contenders) contender.perSecond.push(await round(contender, ROUND_MS));
  }
  print();
} finally {
  for (const { process: child } of contenders) {
    const gone = new Promise((resolve) => child.once('exit', resolve));
    child.kill('SIGKILL');
    await gone;
  }
  await postgres.stop();
  rmSync(folder, { recursive: true, force: true });
}

async function start(
  name: string,
  kind: Contender['kind'],
  databaseUrl?: string,
): Promise<Contender> {
  const file = fileURLToPath(new URL('server-process.js', import.meta.url));
  const child = spawn(process.execPath, [file, kind], {
    stdio: ['ignore', 'pipe', 'inherit'],
    env: {
      PORT: '0',
      DATA_DIR: join(folder, name.replaceAll(' ', '-')),
      DATABASE_URL: databaseUrl ?? '',
      LOG_LEVEL: 'silent',
      CASE_LIMIT: '1000000',
    },
  });
  const url = await new Promise<string>((resolve, reject) => {
    createInterface({ input: child.stdout }).once('line', resolve);
    child.once('exit', (code) => reject(new Error(`${name} ended with ${code}`)));
  });
  return { name, kind, url, process: child, perSecond: [] };
}

/** Answers acknowledged in a second, all clients together. Opening a case is left out of the count, not of the time. */
async function round({ kind, url }: Contender, ms: number): Promise<number> {
  const until = performance.now() + ms;
  const started = performance.now();
  let answers = 0;
  const client = async (): Promise<void> => {
    while (performance.now() < until) {
      const path = kind === 'echo' ? '/' : `/api/cases/${await open(url)}/answers`;
      for (let n = 0; n < ANSWERS_A_CASE && performance.now() < until; n += 1) {
        await post(`${url}${path}`, { answerId: randomUUID(), ...said(n) });
        answers += 1;
      }
    }
  };
  await Promise.all(Array.from({ length: CLIENTS }, client));
  return (answers * 1000) / (performance.now() - started);
}

function said(n: number): { question: string; value: unknown } {
  if (n === 0) return { question: 'danger', value: [] };
  if (n === 1) return { question: 'complaint', value: ['weak'] };
  const bar = { G1: 3.3, G2: 3.3 - n / 10 };
  return { question: 'readings', value: { taps: n === 2 ? 'closed' : { open: 1 }, bar } };
}

async function open(url: string): Promise<string> {
  return ((await post(`${url}/api/cases`, { plant: twoGauges })) as { id: string }).id;
}

async function post(url: string, body: unknown): Promise<unknown> {
  const response = await fetch(url, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });
  const answer: unknown = await response.json();
  if (!response.ok) throw new Error(`${response.status} ${JSON.stringify(answer)}`);
  return answer;
}

function print(): void {
  const median = (list: readonly number[]): number =>
    [...list].sort((a, b) => a - b)[Math.floor(list.length / 2)] ?? 0;
  const echo = median(contenders[0]?.perSecond ?? []);
  const lines = contenders.map(({ name, perSecond }) => {
    const rate = median(perSecond);
    const all = perSecond.map((each) => each.toFixed(0)).join(' ');
    return `${name.padEnd(28)} ${rate.toFixed(0).padStart(7)} a second   ${(rate / echo).toFixed(3)} of the echo   (${all})`;
  });
  process.stdout.write(
    `${CLIENTS} clients, ${ROUNDS} rounds of ${ROUND_MS / 1000} s each, median\n${lines.join('\n')}\n`,
  );
}
