import { changeCase, lockCase } from '../../store/repositories/cases.ts';
import { insertRejudging } from '../../store/repositories/desk.ts';
import type { CaseRow } from '../../store/tables.ts';
import type { Deps } from '../deps.ts';
import type { View } from '../judge.ts';
import { notFound, Problem } from '../problem.ts';
import { readCase } from './cases.ts';
import { tellStateChange } from './outbox.ts';
import { type ComputeView, leadingCause, listed, shownState, type Wording } from './views.ts';

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
function differenceOf(before: View, after: View): Difference {
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
  const after = await views({ ...input, ruleSet: to });
  return { from: input.ruleSet, to, difference: differenceOf(view, after), before: view, after };
}

/** How often a case is judged anew when answers keep coming meanwhile. */
const TRIES = 5;

/** Judges the case by another rule set from now on. Throws an InputError when an answer means nothing there. */
export async function rejudge(
  deps: Deps,
  views: ComputeView,
  ref: string,
  ruleSet: string | undefined,
): Promise<Rejudged> {
  for (let tries = 0; tries < TRIES; tries += 1) {
    const { row, ...found } = await readCase(deps, views, ref);
    const seen = await previewRejudge(deps, views, ref, ruleSet);
    if (seen.from === seen.to) return seen;
    if (await keepRejudged(deps, row, found.case.answers.length, seen)) return seen;
  }
  throw new Problem(409, 'Answers keep coming; try again when it is quiet.', 'answers-between');
}

/** Writes the change of rule set; false when the case changed while it was judged. */
function keepRejudged(
  deps: Deps,
  before: CaseRow,
  count: number,
  { from, to, after }: Rejudged,
): Promise<boolean> {
  const now = deps.clock().toISOString();
  const { ref } = before;
  return deps.store.write(async (trx, changed) => {
    const row = await lockCase(trx, ref);
    if (!row) throw notFound();
    if (row.version !== before.version) return false;
    const version = row.version + 1;
    const state = shownState(row, count, after);
    await changeCase(trx, ref, { rule_set: to, state, ...listed(after), judged_count: count }, now);
    await insertRejudging(trx, {
      case_ref: ref,
      case_version: version,
      at: now,
      from_rule_set: from,
      to_rule_set: to,
    });
    await tellStateChange(deps, trx, {
      row,
      version,
      from: row.state,
      to: state,
      view: after,
      now,
    });
    changed(ref);
    return true;
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
