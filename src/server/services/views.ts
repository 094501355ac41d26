import { createHash } from 'node:crypto';
import type { Answer } from '../../../shared/case/answer.ts';
import type { AnswerRow, CaseRow, CaseState } from '../../store/tables.ts';
import type { Deps } from '../deps.ts';
import type { CaseInput, View } from '../judge.ts';
import { Problem } from '../problem.ts';
import { toAnswer } from './answer-rows.ts';

/** Views kept by what they were computed from: the same content gives the same view, whoever asks. */
const KEPT = 500;

export interface Wording {
  readonly audience?: string | undefined;
  readonly language?: string | undefined;
}

/**
 * What the diagnosis gets for a stored case. Without a time on any answer the day of the last one received is taken,
 * so that a case says the same whenever it is read.
 */
export function caseInput(
  row: CaseRow,
  rows: readonly AnswerRow[],
  wording: Wording = {},
  ruleSet = row.rule_set,
): CaseInput {
  const answers: readonly Answer[] = rows.map(toAnswer);
  const dated = answers.some(({ at }) => at !== undefined);
  return {
    ...(row.plant !== null && { plant: JSON.parse(row.plant) as unknown }),
    answers,
    audience: wording.audience ?? row.audience,
    language: wording.language ?? row.language,
    ruleSet,
    ...(!dated && { today: (rows.at(-1)?.received_at ?? row.created_at).slice(0, 10) }),
  };
}

/** The state a view puts a case into; only the desk closes one. */
export function stateOf(view: View): CaseState {
  if (view.stopped) return 'stopped';
  return view.next ? 'asking' : 'planned';
}

export const leadingCause = (view: View): string | null => view.causes[0]?.id ?? null;

export type ComputeView = (input: CaseInput) => View;

/** Computes views, keeping the latest by content. */
export function createViews({ judge, metrics }: Pick<Deps, 'judge' | 'metrics'>): ComputeView {
  const kept = new Map<string, View>();
  return (input) => {
    if (!judge.ruleSets.includes(input.ruleSet)) {
      throw new Problem(
        503,
        `This server does not have the rule set ${input.ruleSet}.`,
        'rule-set-missing',
      );
    }
    const key = createHash('sha256').update(JSON.stringify(input)).digest('base64');
    const known = kept.get(key);
    kept.delete(key);
    metrics.views.inc({ from: known ? 'kept' : 'computed' });
    const view = known ?? judge.computeView(input);
    kept.set(key, view);
    const oldest = kept.keys().next();
    if (kept.size > KEPT && !oldest.done) kept.delete(oldest.value);
    return view;
  };
}
