import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { ruleSetVersions, rulesFolder } from '../../src/rules/read.ts';

export const newest = join(rulesFolder(), ruleSetVersions().at(-1)!);
const made: string[] = [];

/** A new empty folder, gone after the tests. */
export function folder(): string {
  const path = mkdtempSync(join(tmpdir(), 'rules-'));
  made.push(path);
  return path;
}

/** A copy of the newest rule set with some texts changed. */
export function draftWith(...edits: readonly (readonly [string, string, string])[]): string {
  const path = join(folder(), 'draft');
  cpSync(newest, path, { recursive: true });
  rmSync(join(path, 'published.json'), { force: true });
  for (const [file, from, to] of edits) {
    const text = readFileSync(join(path, file), 'utf8');
    if (!text.includes(from)) throw new Error(`${file} has no ${from}`);
    writeFileSync(join(path, file), text.replace(from, to));
  }
  return path;
}

export const tidy = () => {
  for (const path of made) rmSync(path, { recursive: true, force: true });
};
