import {
  cpSync,
  existsSync,
  mkdirSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { InputError } from '../../shared/common/errors.ts';
import { reasonOf } from '../files/reason.ts';
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
  laidDownWhole(from, to, (folder) => {
    rmSync(join(folder, SEAL), { force: true });
    const file = join(folder, 'ruleset.yaml');
    const text = readFileSync(file, 'utf8');
    writeFileSync(file, text.replace(/^version:.*$/m, `version: ${version}`));
  });
}

/** Copies a folder and finishes the copy before it gets its name: there whole or not at all, should the disk be full. */
function laidDownWhole(from: string, to: string, finish: (folder: string) => void): void {
  const part = `${to}.part`;
  try {
    mkdirSync(dirname(to), { recursive: true });
    cpSync(from, part, { recursive: true });
    finish(part);
    renameSync(part, to);
  } catch (error) {
    rmSync(part, { recursive: true, force: true });
    throw new InputError(to, `cannot be written: ${reasonOf(error)}`);
  }
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
  const seal = (folder: string) => {
    // the first of all was compared with itself
    const comesFrom = from === version ? null : from;
    const sealed: Seal = { version, from: comesFrom, reason, files: sumsOf(folder) };
    writeFileSync(join(folder, SEAL), `${JSON.stringify(sealed, null, 2)}\n`);
  };
  if (resolve(target) === resolve(draft)) seal(draft);
  else laidDownWhole(draft, target, seal);
  return { refused: null, text: `${said}\n\nPublished ${version} in ${target}.` };
}

function doubtOf({ accuracy }: Comparison, worlds: number, a: string, b: string): string | null {
  if (!accuracy) return `accuracy was not measured (--worlds ${worlds})`;
  return isWorse(accuracy) ? accuracyText(accuracy, a, b) : null;
}
