import { listAnswers } from '../../store/repositories/answers.ts';
import { deleteCase, findCase, insertCase, lockCase } from '../../store/repositories/cases.ts';
import { listRejudgings, saveCall } from '../../store/repositories/desk.ts';
import { withdrawLinks } from '../../store/repositories/links.ts';
import { type CaseRow, linkStrengths } from '../../store/tables.ts';
import type { Deps } from '../deps.ts';
import type { CaseInput, View } from '../judge.ts';
import { notFound } from '../problem.ts';
import { nameOf, plantNow } from './answer-rows.ts';
import { makeBothLinks } from './links.ts';
import { tellStateChange } from './outbox.ts';
import { type ComputeView, caseInput, listed, shownState, stateOf, type Wording } from './views.ts';

export interface NewCaseInput extends Wording {
  readonly plant?: unknown;
  readonly plantRef?: string | undefined;
  /** who opened it at the desk, and so has it first */
  readonly assignedTo?: string | undefined;
  /** a number and when, where a caller told it at once */
  readonly callBack?: string | undefined;
}

export interface OpenedCase {
  readonly ref: string;
  readonly id: string;
  readonly readId: string;
  readonly view: View;
}

/** Opens a case under the newest rule set. Throws an InputError when the plant cannot be used. */
export async function openCase(
  deps: Deps,
  views: ComputeView,
  input: NewCaseInput,
): Promise<OpenedCase> {
  const now = deps.clock().toISOString();
  const ref = deps.newRef();
  const name = nameOf(input.plant);
  const row: CaseRow = {
    ref,
    plant_ref: input.plantRef ?? null,
    plant: input.plant === undefined ? null : JSON.stringify(input.plant),
    plant_name: name,
    search_text: name?.toLowerCase() ?? null,
    audience: input.audience ?? 'householder',
    language: input.language ?? 'en',
    rule_set: newestRuleSet(deps),
    created_at: now,
    changed_at: now,
    answer_count: 0,
    judged_count: 0,
    version: 0,
    state: 'asking',
    leading_cause: null,
    priority: 'normal',
    assigned_to: input.assignedTo ?? null,
    closed_how: null,
  };
  const view = await views(caseInput(row, []));
  const state = stateOf(view);
  return deps.store.write(async (trx) => {
    await insertCase(trx, { ...row, state, ...listed(view) });
    if (input.callBack !== undefined) await saveCall(trx, callOf(ref, input.callBack));
    await tellStateChange(deps, trx, { row, version: 0, from: null, to: state, view, now });
    return { ref, ...(await makeBothLinks(deps, trx, { caseRef: ref }, now)), view };
  });
}

const callOf = (ref: string, callBack: string) => ({
  ...{ case_ref: ref, call_back: callBack, access: null, stop_phrase_at: null },
});

function newestRuleSet({ judge }: Pick<Deps, 'judge'>): string {
  const newest = judge.ruleSets.at(-1);
  if (newest === undefined) throw new Error('the server was given no rule set');
  return newest;
}

/** A case with its answers and its view. */
export interface CaseAndView {
  readonly row: CaseRow;
  readonly input: CaseInput;
  readonly case: {
    readonly answers: CaseInput['answers'];
    readonly plant: unknown;
    readonly audience: string;
    readonly language: string;
    readonly ruleSet: string;
    readonly state: CaseRow['state'];
    readonly createdAt: string;
    readonly changedAt: string;
    readonly rejudged: readonly { at: string; from: string; to: string }[];
  };
  readonly view: View;
}

export async function readCase(
  { store }: Pick<Deps, 'store'>,
  views: ComputeView,
  ref: string,
  wording: Wording = {},
): Promise<CaseAndView> {
  const row = await findCase(store.db, ref);
  if (!row) throw notFound();
  const rows = await listAnswers(store.db, ref);
  const input = caseInput(row, rows, wording);
  const rejudged = await listRejudgings(store.db, ref);
  const view = await views(input);
  return {
    row,
    input,
    case: {
      answers: input.answers,
      plant: plantNow(row.plant, input.answers) ?? null,
      audience: row.audience,
      language: row.language,
      ruleSet: row.rule_set,
      state: shownState(row, rows.length, view),
      createdAt: row.created_at,
      changedAt: row.changed_at,
      rejudged: rejudged.map(({ at, from_rule_set, to_rule_set }) => ({
        at,
        from: from_rule_set,
        to: to_rule_set,
      })),
    },
    view,
  };
}

/** Removes everything about a case. Its links stay known as withdrawn, with nothing behind them. */
export async function eraseCase(
  { store, clock }: Pick<Deps, 'store' | 'clock'>,
  ref: string,
): Promise<void> {
  const now = clock().toISOString();
  await store.write(async (trx, changed) => {
    if (!(await lockCase(trx, ref))) throw notFound();
    await withdrawLinks(trx, { caseRef: ref }, linkStrengths, now);
    await deleteCase(trx, ref);
    changed(ref);
  });
}
