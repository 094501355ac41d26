import { createHash } from 'node:crypto';
import type { Answer } from '../../../shared/case/answer.ts';
import type { AnswerRow, CaseRow, CaseState } from '../../store/tables.ts';
import type { Deps } from '../deps.ts';
import type { CaseInput, Judge, View } from '../judge.ts';
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

/** The state to show: closed while nothing was answered since, else what the view says. */
export function shownState(
  row: Pick<CaseRow, 'state' | 'judged_count'>,
  count: number,
  view: View,
): CaseState {
  return row.state === 'closed' && row.judged_count === count ? 'closed' : stateOf(view);
}

/** The likeliest cause that is looked for: what is merely overdue is told by its date. */
export const leadingCause = (view: View): string | null =>
  view.stopped ? null : (view.causes.find((cause) => !cause.overdue)?.id ?? null);

/** What the desk's list shows of a view. */
export const listed = (view: View) => ({
  leading_cause: leadingCause(view),
  priority: view.dispatch.priority,
});

export type ComputeView = (input: CaseInput) => Promise<View>;

/** Computes views, keeping the latest by content; the same content asked for twice at once is computed once. */
export function createViews({ judge, metrics }: Pick<Deps, 'judge' | 'metrics'>): ComputeView {
  const kept = new Map<string, Promise<View>>();
  return (input) => {
    if (!judge.ruleSets.includes(input.ruleSet)) {
      const detail = `This server does not have the rule set ${input.ruleSet}.`;
      return Promise.reject(new Problem(503, detail, 'rule-set-missing'));
    }
    const key = createHash('sha256').update(JSON.stringify(input)).digest('base64');
    const known = kept.get(key);
    kept.delete(key);
    metrics.views.inc({ from: known ? 'kept' : 'computed' });
    const view = known ?? compute(judge, input);
    view.catch(() => kept.delete(key));
    kept.set(key, view);
    const oldest = kept.keys().next();
    if (kept.size > KEPT && !oldest.done) kept.delete(oldest.value);
    return view;
  };
}

const compute = async (judge: Judge, input: CaseInput): Promise<View> => judge.computeView(input);
