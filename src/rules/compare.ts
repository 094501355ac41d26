import { type Accuracy, accuracyOf, accuracyText } from './accuracy.ts';
import { type Difference, differencesOf, differenceText } from './difference.ts';
import type { ReadRuleSet } from './read.ts';
import { type Change, exampleCases, type NamedCase, replay } from './replay.ts';

/** What changed between two versions, and what that does. */
export interface Comparison {
  readonly differences: readonly Difference[];
  readonly changes: readonly Change[];
  readonly accuracy: Accuracy | null;
  readonly text: string;
}

export interface CompareWanted {
  /** stored cases to replay besides the examples */
  readonly cases: readonly NamedCase[];
  /** virtual plants to play under both; none leaves accuracy out */
  readonly worlds: number;
}

export function compareRules(
  a: ReadRuleSet,
  b: ReadRuleSet,
  { cases, worlds }: CompareWanted,
): Comparison {
  const differences = differencesOf(a, b);
  const all = [...exampleCases(a, b), ...cases];
  const changes = all.map((each) => replay(each, a, b));
  const accuracy = worlds > 0 ? accuracyOf(a, b, worlds) : null;
  const names = namesOf(a, b);
  const text = [
    differences.length === 0
      ? `${names[0]} and ${names[1]} mean the same.`
      : `From ${names[0]} to ${names[1]}, ${differences.length} ${differences.length === 1 ? 'thing' : 'things'} changed:`,
    ...differences.map((each) => `  ${differenceText(each)}`),
    '',
    ...changesText(changes),
    '',
    accuracy ? accuracyText(accuracy, ...names) : 'Accuracy not measured (--worlds N).',
  ].join('\n');
  return { differences, changes, accuracy, text };
}

/** The versions by their dates; told apart where both have the same. */
function namesOf(a: ReadRuleSet, b: ReadRuleSet): [string, string] {
  const [first, second] = [a.ruleSet.head.version, b.ruleSet.head.version];
  return first === second ? [`${first} (first)`, `${second} (second)`] : [first, second];
}

/** Below this a probability has not moved for anybody. */
const MOVED = 0.005;

function changesText(changes: readonly Change[]): string[] {
  const changed = changes.filter((change) => change.changed.length > 0);
  const refused = changes.filter((change) => change.refused !== null);
  const moved = changes.filter(
    ({ changed, moved: { was, is } }) => changed.length === 0 && Math.abs(is - was) >= MOVED,
  );
  const size = ({ moved: { was, is } }: Change) => Math.abs(is - was);
  return [
    `${changes.length} cases replayed; leading cause, plan or cautions change in ${changed.length}:`,
    ...changed.flatMap((change) => [
      `  ${change.name}`,
      ...change.changed.map((line) => `    ${line}`),
      ...change.reasons.map((line) => `      because ${line}`),
    ]),
    ...refused.map(({ name, refused: why }) => `  ${name}: ${why}`),
    moved.length === 0
      ? 'In the others no probability moves.'
      : `In ${moved.length} more only probabilities move, most in:`,
    ...moved
      .toSorted((x, y) => size(y) - size(x))
      .slice(0, 5)
      .map(
        ({ name, moved: { cause, was, is } }) =>
          `  ${name}: ${cause} ${was.toFixed(2)} → ${is.toFixed(2)}`,
      ),
  ];
}
