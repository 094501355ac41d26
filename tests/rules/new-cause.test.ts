import { cpSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { checkRules } from '../../src/rules/check.ts';
import { findingsOfProof } from '../../src/rules/check-jobs.ts';
import { readFiles } from '../../src/rules/read.ts';
import { draftWith, tidy } from './drafts.ts';

afterAll(tidy);
const additions = fileURLToPath(new URL('./new-cause', import.meta.url));

/** What a tradesperson does by docs/rules.md alone: new files beside the others, rows in tables that are there. */
function withNewCause(): string {
  const draft = draftWith();
  cpSync(additions, draft, { recursive: true, filter: (path) => !path.endsWith('rows.yaml') });
  const rows: Record<string, string> = parse(readFileSync(join(additions, 'rows.yaml'), 'utf8'));
  for (const [question, row] of Object.entries(rows)) {
    const file = readdirSync(join(draft, 'questions'))
      .map((name) => join(draft, 'questions', name))
      .find((path) => new RegExp(`^${question}:`, 'm').test(readFileSync(path, 'utf8')))!;
    const text = readFileSync(file, 'utf8');
    const at = text.indexOf('  table:\n', text.search(new RegExp(`^${question}:`, 'm')));
    writeFileSync(
      file,
      text.slice(0, at) + text.slice(at).replace('  table:\n', `  table:\n    ${row}\n`),
    );
  }
  return draft;
}

describe('a cause added without touching code', () => {
  it('passes the check with its question, words, job and example, and its example finds it', () => {
    const { toMend, text } = checkRules(withNewCause(), { quick: true });
    expect(toMend).toEqual([]);
    expect(text).toContain('47 causes');
    expect(text).toContain('23 example cases run');
  });

  it('has a job that no path makes unsafe', () => {
    const files = readFiles(additions);
    expect(Object.keys(files)).toContain('work/breather.yaml');
    expect(
      findingsOfProof({ 'work/breather.yaml': files['work/breather.yaml']! }).findings,
    ).toEqual([]);
  });

  it('is asked for what was forgotten: the words of one language', () => {
    const draft = withNewCause();
    writeFileSync(join(draft, 'words/es/breather.yaml'), '');
    const messages = checkRules(draft, { quick: true }).toMend.map(({ message }) => message);
    expect(messages.join('\n')).toContain('no words for "tank-breather-blocked"');
  });
});
