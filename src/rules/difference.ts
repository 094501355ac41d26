import type { RuleSet } from '../../shared/ruleset/schema.ts';
import { frequencyWord } from '../../shared/ruleset/schema.ts';
import { readWork } from '../../shared/work/read.ts';
import type { ReadRuleSet } from './read.ts';

/** One thing that means something else in the other version: where it stands, what it was and what it is. */
export interface Difference {
  /** "questions › complaint › table › pump-worn › weak" */
  readonly at: string;
  readonly was: string | null;
  readonly is: string | null;
}

/**
 * What differs between two versions by meaning: remarks, order of entries, layout and files do not count, values that
 * are left out count as what they then mean.
 */
export function differencesOf(a: ReadRuleSet, b: ReadRuleSet): Difference[] {
  const tables = deep(bare(a.ruleSet), bare(b.ruleSet), [], (path, value) =>
    said(value, path[0] === 'questions' || path[0] === 'jobs' ? a.ruleSet : null),
  );
  const jobs = deep(readWork(a.files).work, readWork(b.files).work, ['work'], (_, value) =>
    said(value, null),
  );
  const words = deep(a.words, b.words, ['words'], (_, value) => said(value, null));
  return [...tables, ...jobs, ...words];
}

/** The tables without the version, which differs always. */
const bare = ({ head: { version: _, ...head }, ...tables }: RuleSet) => ({ ...tables, head });

type Told = (path: readonly string[], value: unknown) => string;

function deep(a: unknown, b: unknown, path: readonly string[], tell: Told): Difference[] {
  if (same(a, b)) return [];
  if (isTable(a) && isTable(b)) {
    const keys = [...new Set([...Object.keys(a), ...Object.keys(b)])];
    return keys.flatMap((key) => deep(a[key], b[key], [...path, key], tell));
  }
  const shown = (value: unknown) => (value === undefined ? null : tell(path, value));
  return [{ at: path.join(' › '), was: shown(a), is: shown(b) }];
}

/** A frequency word with its figure, a short value as it is, a long one by its size. */
function said(value: unknown, rules: RuleSet | null): string {
  const word = frequencyWord.safeParse(value);
  if (rules && word.success) return `${word.data} (${rules.head.frequencies[word.data]})`;
  if (typeof value === 'string') return value;
  const text = JSON.stringify(value);
  return text.length <= 120 ? text : `${text.slice(0, 117)}...`;
}

const isTable = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

function same(a: unknown, b: unknown): boolean {
  if (isTable(a) && isTable(b)) {
    const keys = new Set([...Object.keys(a), ...Object.keys(b)]);
    return [...keys].every((key) => same(a[key], b[key]));
  }
  if (Array.isArray(a) && Array.isArray(b))
    return a.length === b.length && a.every((item, i) => same(item, b[i]));
  return a === b;
}

export const differenceText = ({ at, was, is }: Difference): string =>
  was === null
    ? `${at}: new: ${is}`
    : is === null
      ? `${at}: gone: ${was}`
      : `${at}: ${was} → ${is}`;
