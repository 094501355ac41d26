import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { InputError } from '../../shared/common/errors.ts';
import { loadRuleSet, loadWords } from '../../shared/ruleset/load.ts';
import type { RuleSet } from '../../shared/ruleset/schema.ts';
import type { Files } from '../../shared/ruleset/tables.ts';
import type { Words } from '../../shared/ruleset/words.ts';

/** A rule set with its words, in every language it says it speaks where not one alone was asked for, and its files as read. */
export interface ReadRuleSet {
  readonly ruleSet: RuleSet;
  readonly words: Readonly<Record<string, Words>>;
  readonly files: Files;
}

/** All YAML files under a folder, by their path in it with forward slashes. */
export function readFiles(folder: string): Files {
  if (!existsSync(folder)) throw new InputError(folder, 'there is no such folder');
  const files: Record<string, string> = {};
  for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
    if (!entry.isFile() || !/\.ya?ml$/.test(entry.name)) continue;
    const path = join(entry.parentPath, entry.name);
    files[relative(folder, path).split(sep).join('/')] = readFileSync(path, 'utf8');
  }
  return files;
}

/**
 * Reads one rule-set folder. Throws an InputError naming file and line of the first thing wrong.
 * @param only the one language whose words are read; left out: every language
 */
export function readRuleSet(folder: string, only?: string): ReadRuleSet {
  const files = readFiles(folder);
  const ruleSet = loadRuleSet(files);
  const languages = ruleSet.head.languages.filter((each) => only === undefined || each === only);
  const words = Object.fromEntries(
    languages.map((language) => [language, loadWords(files, language, ruleSet)]),
  );
  return { ruleSet, words, files };
}

/** The folder that holds the dated rule sets, found from sources and from the built package alike. */
export function rulesFolder(): string {
  let folder = dirname(fileURLToPath(import.meta.url));
  while (!existsSync(join(folder, 'rules', '.')) || !existsSync(join(folder, 'package.json'))) {
    const above = dirname(folder);
    if (above === folder)
      throw new InputError('rules', 'the folder of rule sets is missing from this installation');
    folder = above;
  }
  return join(folder, 'rules');
}

/** The versions there are, oldest first. */
export function ruleSetVersions(): readonly string[] {
  return readdirSync(rulesFolder(), { withFileTypes: true })
    .filter((entry) => entry.isDirectory() && /^\d{4}-\d{2}-\d{2}$/.test(entry.name))
    .map((entry) => entry.name)
    .sort();
}

/** The newest rule set that came with the program; its words as `readRuleSet` reads them. */
export function latestRuleSet(only?: string): ReadRuleSet {
  const newest = ruleSetVersions().at(-1);
  if (newest === undefined)
    throw new InputError('rules', 'there is no rule set in this installation');
  return readRuleSet(join(rulesFolder(), newest), only);
}
