import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { sql } from 'kysely';
import { diagnose } from '../shared/diagnosis/diagnose.ts';
import { type Plant, parsePlant } from '../shared/plant/schema.ts';
import type { RuleSet } from '../shared/ruleset/schema.ts';
import type { Words } from '../shared/ruleset/words.ts';
import { outlookOf } from '../shared/upkeep/due.ts';
import { parseUpkeep } from '../shared/upkeep/history.ts';
import { latestRuleSet } from '../src/rules/read.ts';
import { latestUpkeepRules } from '../src/rules/upkeep.ts';
import { listCases } from '../src/store/repositories/cases.ts';
import { type Db, openStore } from '../src/store/store.ts';

/** How time and memory grow with causes, gauges, readings and stored cases: `node --expose-gc .bench/bench/growth.js`. */
const full = process.env.GAUGEWALK_FULL === '1';
const DAY = '2026-11-25';
const { ruleSet, words } = latestRuleSet();
const english = words.en;
if (!english) throw new Error('no English words');

const answered = [
  { question: 'complaint', value: ['weak'] },
  { question: 'onset', value: 'gradual' },
  { question: 'scope', value: 'whole-house' },
  { question: 'pump-open', value: 'weak-steady' },
  { question: 'smell', value: 'none' },
];

table(
  'causes (one diagnosis with its next question, two gauges)',
  [10, 20, 46, 70, 100],
  (causes) => {
    const grown = withCauses(ruleSet, english, causes);
    const plant = withGauges(2);
    const answers = [...answered, readingsOf(2)];
    return () => diagnose({ plant, answers, today: DAY }, grown.rules, grown.words, DAY);
  },
);

table('gauges (the same)', [0, 1, 2, 4, 8], (gauges) => {
  const plant = withGauges(gauges);
  const answers = gauges > 0 ? [...answered, readingsOf(gauges)] : answered;
  return () => diagnose({ plant, answers, today: DAY }, ruleSet, english, DAY);
});

table('readings (what is due, from a history of so many)', [1, 10, 50, 100, 250, 500], (count) => {
  const upkeepRules = latestUpkeepRules();
  const record = { plant: withGauges(2), history: historyOf(count), done: [], today: DAY };
  return () => outlookOf(parseUpkeep(record, ruleSet, DAY), upkeepRules);
});

await storedCases(full ? [1e2, 1e3, 1e4, 1e5, 1e6] : [1e2, 1e3, 1e4, 1e5]);

/** The plant has eight filters whatever the gauges, so that only these grow. */
function withGauges(count: number): Plant {
  const filters = Array.from({ length: 8 }, (_, i) => [
    ...(i < count ? [{ id: `G${i}`, kind: 'gauge' }] : []),
    { id: `f${i}`, kind: 'filter', medium: i % 2 === 0 ? 'sediment' : 'carbon' },
  ]);
  return parsePlant({
    name: 'growing',
    line: [
      ...[
        { id: 'tank', kind: 'tank' },
        { id: 'pump', kind: 'pump' },
        { id: 'vessel', kind: 'vessel' },
      ],
      ...filters.flat(),
      { id: 'house', kind: 'house' },
    ],
  });
}

function readingsOf(gauges: number) {
  const bar = Object.fromEntries(
    Array.from({ length: gauges }, (_, i) => [`G${i}`, Math.max(0.4, 2.8 - 0.3 * i)]),
  );
  return { question: 'readings', value: { taps: { open: 1 }, bar } };
}

/** Two readings a week up to the day, the drop growing. */
function historyOf(count: number) {
  return Array.from({ length: count }, (_, i) => ({
    at: new Date(Date.parse(DAY) - (count - i) * 3.5 * 86_400_000).toISOString().slice(0, 10),
    taps: { open: 1 },
    bar: { G0: 2.8, G1: 2.6 - (0.8 * i) / count },
    flowLpm: 12,
  }));
}

/** The first so many causes; past what there is, the same again under other names, in every table. */
function withCauses(rules: RuleSet, said: Words, count: number): { rules: RuleSet; words: Words } {
  const there = Object.keys(rules.causes);
  const ids = Array.from({ length: count }, (_, i) => there[i % there.length] ?? '');
  const name = (i: number) => (i < there.length ? (ids[i] ?? '') : `${ids[i]}-again-${i}`);
  const named = <T>(of: Readonly<Record<string, T>>): Record<string, T> =>
    Object.fromEntries(ids.flatMap((id, i) => (of[id] === undefined ? [] : [[name(i), of[id]]])));
  const keep = (of: RuleSet['questions'][string]['table']) => ({
    ...Object.fromEntries(Object.entries(of).filter(([id]) => !there.includes(id))),
    ...named(of),
  });
  const each = <T>(of: Readonly<Record<string, T>>, change: (one: T) => T) =>
    Object.fromEntries(Object.entries(of).map(([id, one]) => [id, change(one)]));
  const changed = {
    ...rules,
    causes: named(rules.causes),
    questions: each(rules.questions, (one) => ({ ...one, table: keep(one.table) })),
    jobs: each(rules.jobs, (one) => ({ ...one, cures: named(one.cures) })),
  };
  return { rules: changed, words: { ...said, causes: { ...said.causes, ...named(said.causes) } } };
}

/** Reading one page of the desk's list, and storing one answer, among so many cases. */
async function storedCases(sizes: readonly number[]): Promise<void> {
  const dataDir = mkdtempSync(join(tmpdir(), 'gaugewalk-growth-'));
  const store = await openStore({ dataDir });
  const answer = (ref: string, position: number) => ({
    ...{ case_ref: ref, position, answer_id: `${ref}-${position}`, question: 'smell' },
    ...{ value: '"none"', at: null, received_at: `${DAY}T10:00:00.000Z` },
  });
  process.stdout.write('cases in the store (SQLite)\n');
  let first: number[] | undefined;
  let position = 100;
  for (const size of sizes) {
    await fill(store.db, size);
    position += 100;
    const page = await medianOf(20, () => listCases(store.db, { limit: 50 }));
    const write = await medianOf(20, (i) =>
      store.write((trx) =>
        trx
          .insertInto('answers')
          .values(answer('case-1', position + i))
          .execute(),
      ),
    );
    first ??= [page, write];
    const times = (now: number, i: number) => (now / (first?.[i] ?? now)).toFixed(1);
    const mb = process.memoryUsage().rss / 2 ** 20;
    process.stdout.write(
      `  ${String(size).padStart(8)}  a page of 50 ${page.toFixed(2)} ms (×${times(page, 0)}), one answer stored ${write.toFixed(2)} ms (×${times(write, 1)}), process ${mb.toFixed(0)} MB\n`,
    );
  }
  await store.close();
  rmSync(dataDir, { recursive: true });
}

/** Up to so many cases, each with ten answers. */
async function fill(db: Db, size: number): Promise<void> {
  const there = await db
    .selectFrom('cases')
    .select(db.fn.countAll<number>().as('n'))
    .executeTakeFirst();
  const numbers = sql`with recursive n(i) as (select ${sql.lit(Number(there?.n ?? 0) + 1)} union all select i + 1 from n where i < ${sql.lit(size)})`;
  await sql`insert into cases (ref, plant_name, search_text, audience, language, rule_set, created_at, changed_at, state)
    ${numbers} select 'case-' || i, 'Plant ' || i, 'plant ' || i, 'householder', 'en', ${ruleSet.head.version},
      datetime(1.6e9 + i, 'unixepoch'), datetime(1.6e9 + i, 'unixepoch'), 'asking' from n`.execute(
    db,
  );
  await sql`insert into answers (case_ref, position, answer_id, question, value, received_at)
    ${numbers}, p(k) as (select 1 union all select k + 1 from p where k < 10)
    select 'case-' || i, k, i || '-' || k, 'smell', '"none"', '2026-11-25T10:00:00.000Z' from n, p`.execute(
    db,
  );
}

async function medianOf(rounds: number, run: (i: number) => Promise<unknown>): Promise<number> {
  const times: number[] = [];
  for (let i = 0; i < rounds; i++) {
    const started = performance.now();
    await run(i);
    times.push(performance.now() - started);
  }
  return times.sort((a, b) => a - b)[Math.floor(rounds / 2)] ?? 0;
}

function table(
  what: string,
  sizes: readonly number[],
  make: (size: number) => () => unknown,
): void {
  process.stdout.write(`${what}\n`);
  let first: number | undefined;
  for (const size of sizes) {
    const run = make(size);
    run();
    globalThis.gc?.();
    const before = process.memoryUsage().heapUsed;
    const times = Array.from({ length: 7 }, () => {
      const started = performance.now();
      run();
      return performance.now() - started;
    });
    const mb = Math.max(0, process.memoryUsage().heapUsed - before) / times.length / 2 ** 20;
    const ms = times.sort((a, b) => a - b)[3] ?? 0;
    first ??= ms;
    process.stdout.write(
      `  ${String(size).padStart(8)}  ${ms.toFixed(1)} ms (×${(ms / first).toFixed(1)}), up to ${mb.toFixed(1)} MB each\n`,
    );
  }
}
