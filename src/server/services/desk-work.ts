import { type CaseChange, changeCase, lockCase } from '../../store/repositories/cases.ts';
import { findCall, insertNote, listNotes, saveCall } from '../../store/repositories/desk.ts';
import { findPerson, type Person } from '../../store/repositories/people.ts';
import { findPlant } from '../../store/repositories/plants.ts';
import type { Trx } from '../../store/store.ts';
import type { CaseState } from '../../store/tables.ts';
import type { Deps } from '../deps.ts';
import { notFound, Problem } from '../problem.ts';
import type { Latest, LatestView } from './latest.ts';
import { tellStateChange } from './outbox.ts';
import { listed, stateOf } from './views.ts';

export interface Call {
  readonly callBack: string | null;
  readonly access: string | null;
  readonly stopPhraseAt: string | null;
}

export interface Note {
  readonly id: string;
  readonly by: string | null;
  readonly at: string;
  readonly text: string;
}

export async function readCall({ store }: Pick<Deps, 'store'>, ref: string): Promise<Call> {
  const row = await findCall(store.db, ref);
  return {
    callBack: row?.call_back ?? null,
    access: row?.access ?? null,
    stopPhraseAt: row?.stop_phrase_at ?? null,
  };
}

export async function readNotes({ store }: Pick<Deps, 'store'>, ref: string): Promise<Note[]> {
  const rows = await listNotes(store.db, ref);
  return rows.map(({ id, author_name, at, text }) => ({ id, by: author_name, at, text }));
}

export async function addNote(
  deps: Deps,
  person: Person,
  ref: string,
  text: string,
): Promise<Note> {
  const now = deps.clock().toISOString();
  const id = deps.newRef();
  await deps.store.write(async (trx, changed) => {
    if (!(await lockCase(trx, ref))) throw notFound();
    await changeCase(trx, ref, {}, now);
    await insertNote(trx, { id, case_ref: ref, author: person.id, at: now, text });
    changed(ref);
  });
  return { id, by: person.name, at: now, text };
}

export async function assign(deps: Deps, ref: string, personId: string | null): Promise<void> {
  if (personId !== null && !(await findPerson(deps.store.db, personId))) {
    throw new Problem(422, 'There is no such person; GET /api/desk/people lists them.', undefined, {
      where: 'to',
    });
  }
  await change(deps, ref, { assigned_to: personId });
}

/** Writes what changed about the call; what is not given stays. The stop phrase is noted with the time it was said. */
export async function changeCall(
  deps: Deps,
  ref: string,
  given: {
    readonly callBack?: string | null | undefined;
    readonly access?: string | null | undefined;
    readonly stopPhraseSaid?: true | undefined;
  },
): Promise<Call> {
  const now = deps.clock().toISOString();
  return deps.store.write(async (trx, changed) => {
    if (!(await lockCase(trx, ref))) throw notFound();
    await changeCase(trx, ref, {}, now);
    const before = await findCall(trx, ref);
    const row = {
      case_ref: ref,
      call_back: given.callBack === undefined ? (before?.call_back ?? null) : given.callBack,
      access: given.access === undefined ? (before?.access ?? null) : given.access,
      stop_phrase_at: given.stopPhraseSaid ? now : (before?.stop_phrase_at ?? null),
    };
    await saveCall(trx, row);
    changed(ref);
    return {
      callBack: row.call_back,
      access: row.access,
      stopPhraseAt: row.stop_phrase_at,
    };
  });
}

/**
 * Closes a case and forgets how to reach the caller: the number has served its purpose. Where somebody was sent it has not
 * yet: they still have to get in.
 */
export function closeCase(deps: Deps, latest: LatestView, ref: string, how: string): Promise<void> {
  return setState(deps, latest, ref, async (trx, { view, count }, now) => {
    const closed = { state: 'closed' as const, closed_how: how, ...listed(view) };
    // an answer that came after the view was taken is still to be judged, and opens the case again
    await changeCase(trx, ref, { ...closed, judged_count: count }, now);
    const call = await findCall(trx, ref);
    if (call && how !== 'sent') await saveCall(trx, { ...call, call_back: null, access: null });
    return { to: 'closed', closedHow: how };
  });
}

/** Opens a closed case again, in the state its answers put it. */
export function reopenCase(deps: Deps, latest: LatestView, ref: string): Promise<void> {
  return setState(deps, latest, ref, async (trx, { view }, now) => {
    await changeCase(trx, ref, { state: stateOf(view), closed_how: null }, now);
    return { to: stateOf(view) };
  });
}

/** Changes the state by hand and tells of it. */
async function setState(
  deps: Deps,
  latest: LatestView,
  ref: string,
  write: (trx: Trx, latest: Latest, now: string) => Promise<{ to: CaseState; closedHow?: string }>,
): Promise<void> {
  const seen = await latest(ref);
  const now = deps.clock().toISOString();
  await deps.store.write(async (trx, changed) => {
    const row = await lockCase(trx, ref);
    if (!row) throw notFound();
    const change = await write(trx, seen, now);
    const told = {
      ...{ row, version: row.version + 1, from: row.state, view: seen.view, now },
      ...change,
    };
    await tellStateChange(deps, trx, told);
    changed(ref);
  });
}

/** Puts a case to a plant that is looked after, or takes it from there (null). */
export async function putToPlant(deps: Deps, ref: string, plantRef: string | null): Promise<void> {
  if (plantRef !== null && !(await findPlant(deps.store.db, plantRef))) {
    throw new Problem(422, 'There is no such plant; GET /api/desk/plants lists them.', undefined, {
      where: 'plant',
    });
  }
  await change(deps, ref, { plant_ref: plantRef });
}

async function change(
  { store, clock }: Pick<Deps, 'store' | 'clock'>,
  ref: string,
  set: CaseChange,
): Promise<void> {
  await store.write(async (trx, changed) => {
    await changeCase(trx, ref, set, clock().toISOString());
    changed(ref);
  });
}
