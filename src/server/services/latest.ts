import { listAnswers } from '../../store/repositories/answers.ts';
import { findCase, listUnjudged, lockCase, settleCase } from '../../store/repositories/cases.ts';
import type { CaseRow } from '../../store/tables.ts';
import type { Deps } from '../deps.ts';
import type { View } from '../judge.ts';
import { notFound } from '../problem.ts';
import { tellStateChange } from './outbox.ts';
import { type ComputeView, caseInput, listed, stateOf, type Wording } from './views.ts';

export interface Latest {
  readonly view: View;
  /** answers it was computed from */
  readonly count: number;
}

export type LatestView = (ref: string, wording?: Wording) => Promise<Latest>;

/**
 * The view of a case as it now stands, with every answer stored before the call in it. Asked many times at once for one
 * case, it is computed for all of them together: one computation runs, one waits for all who came meanwhile.
 */
export function createLatest(deps: Deps, views: ComputeView): LatestView {
  const running = new Map<string, Promise<Latest>>();
  const waiting = new Map<string, Promise<Latest>>();

  return (ref, wording = {}) => {
    const key = JSON.stringify([ref, wording.audience, wording.language]);
    const joined = waiting.get(key);
    if (joined) return joined;
    const before = running.get(key);
    const mine: Promise<Latest> = (before ?? Promise.resolve())
      .catch(() => undefined)
      .then(() => {
        waiting.delete(key);
        running.set(key, mine);
        return judgeNow(deps, views, ref, wording);
      });
    waiting.set(key, mine);
    const gone = (): void => {
      if (running.get(key) === mine) running.delete(key);
    };
    mine.then(gone, gone);
    return mine;
  };
}

async function judgeNow(
  deps: Deps,
  views: ComputeView,
  ref: string,
  wording: Wording,
): Promise<Latest> {
  const row = await findCase(deps.store.db, ref);
  if (!row) throw notFound();
  const rows = await listAnswers(deps.store.db, ref);
  const view = await views(caseInput(row, rows, wording));
  const count = rows.length;
  if (row.judged_count < count) await settle(deps, row, view, count);
  return { view, count };
}

/** Writes what the view came to, unless answers or the desk were quicker: then theirs stands. */
async function settle(
  deps: Deps,
  { ref }: Pick<CaseRow, 'ref'>,
  view: View,
  count: number,
): Promise<void> {
  const now = deps.clock().toISOString();
  await deps.store.write(async (trx) => {
    const row = await lockCase(trx, ref);
    if (
      !row ||
      row.answer_count !== count ||
      row.judged_count >= count ||
      row.rule_set !== view.ruleSet
    )
      return;
    const state = stateOf(view);
    // An answer to a closed case opens it again.
    const settled = {
      judged_count: count,
      state,
      ...listed(view),
      closed_how: null,
    };
    await settleCase(trx, ref, settled);
    await tellStateChange(deps, trx, {
      row,
      version: row.version,
      from: row.state,
      to: state,
      view,
      now,
    });
  });
}

const OVERDUE_MS = 30_000;
const AT_ONCE = 20;

/** Judges cases whose last answer was stored by a server that died before it judged them. */
export async function catchUp({ store, clock }: Deps, latest: LatestView): Promise<void> {
  const before = new Date(clock().getTime() - OVERDUE_MS).toISOString();
  for (const ref of await listUnjudged(store.db, before, AT_ONCE)) await latest(ref);
}
