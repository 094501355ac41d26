import { InputError } from '../common/errors.ts';
import { checkTables } from './check.ts';
import { type Finding, inReadingOrder, placeOf } from './finding.ts';
import type { RuleSet } from './schema.ts';
import { type Files, readTables } from './tables.ts';
import { readWords } from './wordfiles.ts';
import type { Words } from './words.ts';

/**
 * Builds a rule set from its files (path in the folder → text); words and work steps are left to their own loaders.
 * Throws an InputError naming file and line of the first thing wrong.
 */
export function loadRuleSet(files: Files): RuleSet {
  const { tables, findings } = readTables(files);
  if (!tables) return refuse(findings);
  const wrong = checkTables(tables);
  return wrong.length > 0 ? refuse(wrong) : tables.ruleSet;
}

/** Builds the words of one language ("en") from `words/<language>/*.yaml`; every id of the rule set must have its words. */
export function loadWords(files: Files, language: string, ruleSet: RuleSet): Words {
  const { words, findings } = readWords(files, language, ruleSet);
  return words && findings.length === 0 ? words : refuse(findings);
}

/** Everything wrong with a rule set, words of all its languages included, in reading order. */
export function findingsOf(files: Files): readonly Finding[] {
  const { tables, findings } = readTables(files);
  if (!tables) return inReadingOrder(findings);
  const words = tables.ruleSet.head.languages.flatMap(
    (language) => readWords(files, language, tables.ruleSet).findings,
  );
  return inReadingOrder([...checkTables(tables), ...words]);
}

function refuse(findings: readonly Finding[]): never {
  const first = inReadingOrder(findings)[0];
  if (!first) throw new InputError('ruleset.yaml:1', 'cannot be read');
  const more = findings.length > 1 ? ` (and ${findings.length - 1} more)` : '';
  throw new InputError(placeOf(first), `${first.message}; ${first.mend}${more}`);
}
