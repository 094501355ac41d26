import { cpSync, existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { InputError } from '../../shared/common/errors.ts';
import { accuracyText, isWorse } from './accuracy.ts';
import { checkRules } from './check.ts';
import { type Comparison, compareRules } from './compare.ts';
import { readRuleSet } from './read.ts';
import { isPublished, SEAL, type Seal, sumsOf } from './seal.ts';

/** Copies a version into a new folder under a new date. The seal stays behind: a draft may be changed. */
export function makeDraft(version: string, from: string, to: string): void {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(version) || Number.isNaN(Date.parse(version)))
    throw new InputError(version, 'a version is named by a day, written YYYY-MM-DD');
  const { head } = readRuleSet(from).ruleSet;
  if (version <= head.version)
    throw new InputError(version, `a draft is newer than what it comes from (${head.version})`);
  if (existsSync(to)) throw new InputError(to, 'is there already; choose another date or --to');
  mkdirSync(to, { recursive: true });
  cpSync(from, to, { recursive: true });
  rmSync(join(to, SEAL), { force: true });
  const file = join(to, 'ruleset.yaml');
  const text = readFileSync(file, 'utf8');
  writeFileSync(file, text.replace(/^version:.*$/m, `version: ${version}`));
}

export interface PublishWanted {
  /** the published version it is compared with */
  readonly against: string;
  /** the folder of published versions */
  readonly into: string;
  readonly worlds: number;
  readonly reason: string | null;
  readonly quick: boolean;
}

export interface Published {
  /** why it was refused; null when it is published */
  readonly refused: string | null;
  readonly text: string;
}

/**
 * Puts a draft among the published versions and seals it. Refused with findings to mend, and, unless a reason is given,
 * when it names the fault on fewer virtual plants than the version before it, beyond noise.
 */
export function publish(draft: string, wanted: PublishWanted): Published {
  const { against, into, worlds, reason, quick } = wanted;
  if (isPublished(draft)) throw new InputError(draft, 'is published already and does not change');
  const { toMend, text } = checkRules(draft, { quick });
  if (toMend.length > 0) return { refused: 'the check found something to mend', text };
  const read = readRuleSet(draft);
  const { version } = read.ruleSet.head;
  const before = readRuleSet(against);
  const from = before.ruleSet.head.version;
  const target = join(into, version);
  if (resolve(target) !== resolve(draft) && existsSync(target))
    throw new InputError(target, 'is there already; a published version never changes');
  const comparison = compareRules(before, read, { cases: [], worlds });
  const said = [text, '', comparison.text].join('\n');
  const doubt = doubtOf(comparison, worlds, from, version);
  if (doubt && !reason)
    return {
      refused: `${doubt}; say why it is right all the same with --reason "..."`,
      text: said,
    };
  if (resolve(target) !== resolve(draft)) cpSync(draft, target, { recursive: true });
  const seal: Seal = { version, from, reason, files: sumsOf(target) };
  writeFileSync(join(target, SEAL), `${JSON.stringify(seal, null, 2)}\n`);
  return { refused: null, text: `${said}\n\nPublished ${version} in ${target}.` };
}

function doubtOf({ accuracy }: Comparison, worlds: number, a: string, b: string): string | null {
  if (!accuracy) return `accuracy was not measured (--worlds ${worlds})`;
  return isWorse(accuracy) ? accuracyText(accuracy, a, b) : null;
}
