import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { cac } from 'cac';
import { afterAll, describe, expect, it } from 'vitest';
import { InputError } from '../../shared/common/errors.ts';
import { registerRules } from '../../src/cli/rules.ts';
import { latestRuleSet, readRuleSet, ruleSetVersions, rulesFolder } from '../../src/rules/read.ts';
import { findingsOfSeal, isPublished, SEAL } from '../../src/rules/seal.ts';

const newest = join(rulesFolder(), ruleSetVersions().at(-1)!);
const draft = mkdtempSync(join(tmpdir(), 'rules-'));
cpSync(newest, draft, { recursive: true });
// it is changed below, as a published version never is
rmSync(join(draft, SEAL), { force: true });
afterAll(() => rmSync(draft, { recursive: true }));

/** Runs `rules …` and gives the exit code and what was written. */
function run(...args: string[]): { code: unknown; out: string } {
  const written: string[] = [];
  const cli = cac('gaugewalk');
  registerRules(cli, {
    readText: () => Promise.reject(new Error('reads folders itself')),
    out: (text) => written.push(text),
    err: (text) => written.push(text),
  });
  cli.parse(['node', 'gaugewalk', 'rules', ...args], { run: false });
  return { code: cli.runMatchedCommand(), out: written.join('') };
}

describe('rules check', () => {
  it('says what is in the rule set that is shipped, and that nothing is to mend', () => {
    const { code, out } = run('check', newest, '--quick');
    expect(code).toBe(0);
    expect(out).toContain('46 causes: 28 hydraulic, 18 of the water');
    expect(out).toContain('Nothing to mend.');
    expect(out.split('\n').length).toBeLessThan(20);
  });

  it('ends with 2 and lists file, line and mend of what is wrong', () => {
    const file = join(draft, 'jobs.yaml');
    const text = readFileSync(file, 'utf8');
    writeFileSync(file, text.replace('by: householder', 'by: housholder'));
    const { code, out } = run('check', draft, '--quick');
    writeFileSync(file, text);
    expect(code).toBe(2);
    expect(out).toMatch(
      /jobs\.yaml:\d+ .*"housholder" is not known here\n {4}mend: did you mean "householder"\?/,
    );
    expect(out).toContain('1 to mend in 1 file.');
  });

  it('finds the shipped version sealed, and unchanged since', () => {
    expect(isPublished(newest)).toBe(true);
    expect(findingsOfSeal(newest)).toEqual([]);
  });

  it('refuses an unknown action and a folder that is not there, naming them', () => {
    expect(() => run('chek', newest)).toThrow(InputError);
    expect(() => run('chek', newest)).toThrow(/did you mean "check"/);
    expect(() => run('check', join(draft, 'nowhere'))).toThrow(InputError);
  });
});

describe('reading rule sets', () => {
  it('takes the newest version where none is named', () => {
    expect(latestRuleSet().ruleSet).toEqual(readRuleSet(newest).ruleSet);
  });

  it('names every version by its own date', () => {
    for (const version of ruleSetVersions()) {
      expect(readRuleSet(join(rulesFolder(), version)).ruleSet.head.version).toBe(version);
    }
  });
});
