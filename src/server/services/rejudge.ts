import { listAnswers } from '../../store/repositories/answers.ts';
import { changeCase, lockCase } from '../../store/repositories/cases.ts';
import { insertRejudging } from '../../store/repositories/desk.ts';
import type { Deps } from '../deps.ts';
import type { View } from '../judge.ts';
import { notFound, Problem } from '../problem.ts';
import { readCase } from './cases.ts';
import { tellStateChange } from './outbox.ts';
import { type ComputeView, caseInput, leadingCause, stateOf, type Wording } from './views.ts';

/** Below this a probability counts as unchanged. */
const SAME = 0.005;

export interface Difference {
  readonly leadingCause: { readonly before: string | null; readonly after: string | null };
  /** causes whose probability moved, the largest move first; null: the rule set does not know it */
  readonly causes: readonly {
    readonly id: string;
    readonly before: number | null;
    readonly after: number | null;
  }[];
  readonly next: { readonly before: string | null; readonly after: string | null };
  readonly plan: { readonly before: readonly string[]; readonly after: readonly string[] };
  readonly dispatch: { readonly before: string; readonly after: string };
}

export interface Rejudged {
  readonly from: string;
  readonly to: string;
  readonly difference: Difference;
  readonly before: View;
  readonly after: View;
}

/** What two views of one case say differently. */
export function differenceOf(before: View, after: View): Difference {
  const was = new Map(before.causes.map(({ id, probability }) => [id, probability]));
  const is = new Map(after.causes.map(({ id, probability }) => [id, probability]));
  const causes = [...new Set([...was.keys(), ...is.keys()])]
    .map((id) => ({ id, before: was.get(id) ?? null, after: is.get(id) ?? null }))
    .filter((cause) => cause.before === null || cause.after === null || move(cause) >= SAME)
    .sort((a, b) => move(b) - move(a) || a.id.localeCompare(b.id));
  return {
    leadingCause: { before: leadingCause(before), after: leadingCause(after) },
    causes,
    next: { before: before.next?.question ?? null, after: after.next?.question ?? null },
    plan: { before: before.plan.map(({ job }) => job), after: after.plan.map(({ job }) => job) },
    dispatch: { before: before.dispatch.decision, after: after.dispatch.decision },
  };
}

const move = (cause: { before: number | null; after: number | null }): number =>
  Math.abs((cause.after ?? 0) - (cause.before ?? 0));

/** Shows what another rule set would say, and changes nothing. */
export async function previewRejudge(
  deps: Deps,
  views: ComputeView,
  ref: string,
  ruleSet: string | undefined,
  wording: Wording = {},
): Promise<Rejudged> {
  const to = knownRuleSet(deps, ruleSet);
  const { input, view } = await readCase(deps, views, ref, wording);
  const after = views({ ...input, ruleSet: to });
  return { from: input.ruleSet, to, difference: differenceOf(view, after), before: view, after };
}

/** Judges the case by another rule set from now on. Throws an InputError when an answer means nothing there. */
export function rejudge(
  deps: Deps,
  views: ComputeView,
  ref: string,
  ruleSet: string | undefined,
  wording: Wording = {},
): Promise<Rejudged> {
  const to = knownRuleSet(deps, ruleSet);
  const now = deps.clock().toISOString();
  return deps.store.write(async (trx, changed) => {
    const row = await lockCase(trx, ref);
    if (!row) throw notFound();
    const input = caseInput(row, await listAnswers(trx, ref), wording);
    const before = views(input);
    const after = views({ ...input, ruleSet: to });
    if (to !== row.rule_set) {
      const state = row.state === 'closed' ? 'closed' : stateOf(after);
      await changeCase(trx, ref, { rule_set: to, state, leading_cause: leadingCause(after) }, now);
      await insertRejudging(trx, {
        case_ref: ref,
        case_version: row.version + 1,
        at: now,
        from_rule_set: row.rule_set,
        to_rule_set: to,
      });
      await tellStateChange(deps, trx, row, row.state, state, after, now);
      changed(ref);
    }
    return { from: row.rule_set, to, difference: differenceOf(before, after), before, after };
  });
}

function knownRuleSet({ judge }: Pick<Deps, 'judge'>, ruleSet: string | undefined): string {
  const wanted = ruleSet ?? judge.ruleSets.at(-1);
  if (wanted !== undefined && judge.ruleSets.includes(wanted)) return wanted;
  throw new Problem(
    422,
    `There is no rule set ${wanted}; those there: ${judge.ruleSets.join(', ')}.`,
  );
}
