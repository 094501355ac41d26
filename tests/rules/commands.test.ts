import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readyMade } from '../../shared/plant/ready-made.ts';
import { main } from '../../src/cli/main.ts';
import { processWorld } from '../../src/cli/world.ts';
import { latestRuleSet } from '../../src/rules/read.ts';
import { folder, tidy } from './drafts.ts';

afterAll(tidy);
const rules = latestRuleSet();
const real = processWorld();

async function gaugewalk(...args: string[]): Promise<{ code: number; out: string; err: string }> {
  const out: string[] = [];
  const err: string[] = [];
  const world = {
    ...real,
    out: (text: string) => void out.push(text),
    err: (text: string) => void err.push(text),
  };
  const code = await main(['rules', ...args], world, () => rules);
  return { code, out: out.join(''), err: err.join('') };
}

/** One correction from beginning to end, as docs/rules.md tells it: each step stands on the one before. */
describe('a correction of the rules', () => {
  const versions = folder();
  const draft = join(versions, '2030-01-01');
  const oneCase = join(versions, 'case.json');
  const cases = join(versions, 'cases.jsonl');

  beforeAll(() => {
    const plant = readyMade.find(({ id }) => id === 'switch-and-vessel')?.plant;
    const answers = [
      { question: 'complaint', value: ['weak'] },
      { question: 'scope', value: 'one-tap' },
      { question: 'aerator-compare', value: 'better-without' },
    ];
    const other = [{ question: 'complaint', value: ['smell'] }];
    const lines = [answers, other].map((each) => JSON.stringify({ plant, answers: each }));
    writeFileSync(oneCase, lines[0] ?? '');
    writeFileSync(cases, `${lines.join('\n')}\n`);
  });

  it('begins with a draft, in which a word is changed', async () => {
    const { code, out } = await gaugewalk('draft', '2030-01-01', '--to', draft);
    expect([code, out]).toEqual([0, expect.stringContaining('is a draft of 2030-01-01')]);
    const file = join(draft, 'questions', 'equipment.yaml');
    const was = 'outlet-restricted: { better-without: almost always }';
    const text = readFileSync(file, 'utf8');
    expect(text).toContain(was);
    writeFileSync(file, text.replace(was, was.replace('almost always', 'seldom')));
  });

  it('shows at once what it does to a case', async () => {
    const { code, out } = await gaugewalk('try', draft, oneCase);
    expect(code).toBe(0);
    expect(out).toMatch(/outlet-restricted +0\.\d+ → 0\.\d+/);
  });

  it('is compared in words, on the stored cases given, and on virtual plants', async () => {
    const version = rules.ruleSet.head.version;
    const { code, out } = await gaugewalk(
      ...['compare', version, draft, '--cases', cases, '--worlds', '3'],
    );
    expect(code).toBe(0);
    expect(out).toMatch(
      /1 thing changed:\n {2}questions › aerator-compare .+ almost always \(.+\) → seldom/,
    );
    expect(out).toMatch(/cases\.jsonl:1: outlet-restricted 0\.\d+ → 0\.\d+/);
    expect(out).not.toContain('cases.jsonl:2');
    expect(out).toContain('On 3 virtual plants');
  });

  it('is published where it stands, sealed, and then changes no more', async () => {
    const place = ['--to', versions, '--quick', '--worlds', '2'];
    const { code, out } = await gaugewalk('publish', draft, ...place);
    expect([code, out]).toEqual([0, expect.stringContaining('Published 2030-01-01')]);
    expect(readdirSync(draft)).toContain('published.json');
    expect((await gaugewalk('check', draft, '--quick')).out).toContain('published: sealed');
    const again = await gaugewalk('publish', draft, ...place);
    expect([again.code, again.err]).toEqual([2, expect.stringContaining('published already')]);
    expect((await gaugewalk('draft', '2030-01-01', '--to', draft)).code).toBe(2);
  });

  it('is read as a booklet in the language asked for', async () => {
    const { code, out } = await gaugewalk('show', draft, '--language', 'es');
    expect([code, out]).toEqual([0, expect.stringContaining('<html lang="es">')]);
    expect(out).toContain('2030-01-01');
    expect((await gaugewalk('show', draft, '--language', 'fr')).err).toContain('fr has no words');
  });
});
