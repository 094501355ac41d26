import { InputError } from '../../shared/common/errors.ts';
import type { Case } from '../../shared/diagnosis/diagnose.ts';
import type { RankedCause, Result } from '../../shared/diagnosis/result.ts';
import { readExamples } from '../../shared/ruleset/examples.ts';
import type { ReadRuleSet } from './read.ts';
import { caseOf, judged } from './run-examples.ts';

/** A case with the name it is told by. */
export interface NamedCase {
  readonly name: string;
  readonly input: Case;
}

/** What the second version makes different of a case. */
export interface Change {
  readonly name: string;
  /** what changed, in words; empty where only probabilities moved */
  readonly changed: readonly string[];
  /** the answers that now weigh otherwise for the causes that lead, strongest first */
  readonly reasons: readonly string[];
  /** the cause whose probability moved most, and from where to where */
  readonly moved: { readonly cause: string; readonly was: number; readonly is: number };
  /** why one of the versions cannot take this case */
  readonly refused: string | null;
}

/** The example cases of both versions, each once; the second's where both have it. */
export function exampleCases(...versions: readonly ReadRuleSet[]): NamedCase[] {
  const all = Object.assign({}, ...versions.map(({ files }) => readExamples(files).examples));
  return Object.entries(all as ReturnType<typeof readExamples>['examples']).map(
    ([name, example]) => ({ name, input: caseOf(example) }),
  );
}

/** Judges a case under both versions. */
export function replay({ name, input }: NamedCase, a: ReadRuleSet, b: ReadRuleSet): Change {
  const before = tried(input, a);
  const after = tried(input, b);
  if (typeof before === 'string' || typeof after === 'string') {
    const refused =
      typeof before === typeof after
        ? `both refuse it: ${after}`
        : typeof before === 'string'
          ? `only ${b.ruleSet.head.version} takes it; the other says ${before}`
          : `only ${a.ruleSet.head.version} takes it; the other says ${after}`;
    return { name, changed: [], reasons: [], moved: { cause: '', was: 0, is: 0 }, refused };
  }
  const changed = changesOf(before, after);
  return {
    name,
    changed,
    reasons: changed.length > 0 ? reasonsOf(before, after) : [],
    moved: mostMoved(before, after),
    refused: null,
  };
}

function tried(input: Case, rules: ReadRuleSet): Result | string {
  try {
    return judged(input, rules);
  } catch (error) {
    if (error instanceof InputError) return `${error.where}: ${error.message}`;
    throw error;
  }
}

function changesOf(before: Result, after: Result): string[] {
  const pairs = [
    ['leading cause', leading(before), leading(after)],
    ['plan begins with', head(before), head(after)],
    ['cautions', cautions(before), cautions(after)],
    ['stopped by', before.stopped?.because.join(', '), after.stopped?.because.join(', ')],
  ] as const;
  return pairs.flatMap(([what, was, is]) => {
    if (sign(was) === sign(is)) return [];
    return [`${what}: ${was || 'none'} → ${is || 'none'}`];
  });
}

const leading = ({ causes }: Result) => causes[0] && figure(causes[0]);
const head = ({ plan }: Result) => plan[0]?.job;
const cautions = (result: Result) =>
  result.cautions
    .map(({ id }) => id)
    .sort()
    .join(', ');
const figure = ({ id, probability }: Pick<RankedCause, 'id' | 'probability'>) =>
  `${id} ${probability.toFixed(2)}`;
/** Without its figure: a cause that leads less surely still leads. */
const sign = (text: string | undefined) => (text ?? '').replace(/ [\d.]+$/, '');

/** Answers whose weight on either leading cause changed by a tenth or more. */
function reasonsOf(before: Result, after: Result): string[] {
  const ids = [...new Set([before.causes[0]?.id, after.causes[0]?.id])];
  return ids.flatMap((id) => {
    const was = before.causes.find((cause) => cause.id === id)?.reasons ?? [];
    const is = after.causes.find((cause) => cause.id === id)?.reasons ?? [];
    const findings = [...new Set([...was, ...is].map(({ finding }) => finding))];
    const weight = (list: typeof was, finding: string) =>
      list.find((reason) => reason.finding === finding)?.weight ?? 0;
    return findings
      .map((finding) => ({ finding, was: weight(was, finding), is: weight(is, finding) }))
      .filter((each) => Math.abs(each.is - each.was) >= 0.1)
      .sort((x, y) => Math.abs(y.is - y.was) - Math.abs(x.is - x.was))
      .slice(0, 3)
      .map((each) => `${each.finding} for ${id}: ${signed(each.was)} → ${signed(each.is)}`);
  });
}

const signed = (weight: number) => `${weight < 0 ? '−' : '+'}${Math.abs(weight).toFixed(1)}`;

function mostMoved(before: Result, after: Result): Change['moved'] {
  const was = new Map(before.causes.map(({ id, probability }) => [id, probability]));
  const is = new Map(after.causes.map(({ id, probability }) => [id, probability]));
  const moves = [...new Set([...was.keys(), ...is.keys()])].map((cause) => ({
    cause,
    was: was.get(cause) ?? 0,
    is: is.get(cause) ?? 0,
  }));
  const size = (move: Change['moved']) => Math.abs(move.is - move.was);
  return moves.reduce((most, move) => (size(move) > size(most) ? move : most), {
    cause: '',
    was: 0,
    is: 0,
  });
}
