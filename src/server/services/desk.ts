import { findCase, listCases } from '../../store/repositories/cases.ts';
import type { Person } from '../../store/repositories/people.ts';
import { listWorkOf } from '../../store/repositories/work.ts';
import type { Db } from '../../store/store.ts';
import type { CaseRow, CaseState, Priority, WorkEventRow } from '../../store/tables.ts';
import type { Deps } from '../deps.ts';
import { notFound } from '../problem.ts';
import { atWork } from './work.ts';

/** A case as the desk's list shows it. */
export interface DeskCase {
  readonly ref: string;
  readonly plant: string | null;
  readonly plantName: string | null;
  readonly state: CaseState;
  readonly leadingCause: string | null;
  readonly priority: Priority;
  readonly audience: string;
  readonly answers: number;
  readonly assignedTo: string | null;
  readonly closedHow: string | null;
  readonly createdAt: string;
  readonly changedAt: string;
  readonly atWork: ReturnType<typeof atWork>;
}

export interface DeskFilter {
  readonly state?: CaseState | 'open' | undefined;
  readonly priority?: Priority | undefined;
  readonly cause?: string | undefined;
  readonly assigned?: string | undefined;
  readonly plant?: string | undefined;
  readonly search?: string | undefined;
  readonly after?: string | undefined;
  readonly limit: number;
}

const refPattern = /^[0-9a-f-]{36}$/;

/** A technician works on what was given to them; agents and owners see every case. */
function maySee(person: Person, row: Pick<CaseRow, 'assigned_to'>): boolean {
  return person.role !== 'technician' || row.assigned_to === person.id;
}

/** The case, if this person may see it; 404 otherwise, so that a reference tells nothing. */
export async function deskCaseRow(
  { store }: Pick<Deps, 'store'>,
  person: Person,
  ref: string,
): Promise<CaseRow> {
  const row = refPattern.test(ref) ? await findCase(store.db, ref) : undefined;
  if (!row || !maySee(person, row)) throw notFound();
  return row;
}

/** One page of cases, newest change first; `next` goes into `after` for the page behind it. */
export async function listDesk(
  { store }: Pick<Deps, 'store'>,
  person: Person,
  filter: DeskFilter,
): Promise<{ cases: DeskCase[]; next: string | null }> {
  const rows = await listCases(store.db, {
    ...(filter.state === 'open' ? { isOpen: true } : { state: filter.state }),
    priority: filter.priority,
    cause: filter.cause,
    plantRef: filter.plant,
    search: filter.search,
    assignedTo: person.role === 'technician' ? person.id : assignedFilter(filter.assigned, person),
    after: parseCursor(filter.after),
    limit: filter.limit,
  });
  const last = rows.length === filter.limit ? rows.at(-1) : undefined;
  return {
    cases: await toDeskCases(store.db, rows),
    next: last ? `${last.changed_at}~${last.ref}` : null,
  };
}

function assignedFilter(assigned: string | undefined, person: Person): string | null | undefined {
  if (assigned === 'none') return null;
  return assigned === 'me' ? person.id : assigned;
}

function parseCursor(after: string | undefined): { changedAt: string; ref: string } | undefined {
  const [changedAt, ref] = after?.split('~') ?? [];
  return changedAt !== undefined && ref !== undefined ? { changedAt, ref } : undefined;
}

/** One of them as the list shows it. */
export async function readDeskCase(
  { store }: Pick<Deps, 'store'>,
  row: CaseRow,
): Promise<DeskCase> {
  return toDeskCase(row, await listWorkOf(store.db, [row.ref]));
}

async function toDeskCases(db: Db, rows: readonly CaseRow[]): Promise<DeskCase[]> {
  const refs = rows.map(({ ref }) => ref);
  const work = refs.length === 0 ? [] : await listWorkOf(db, refs);
  return rows.map((row) => toDeskCase(row, work));
}

function toDeskCase(row: CaseRow, work: readonly WorkEventRow[]): DeskCase {
  return {
    ref: row.ref,
    plant: row.plant_ref,
    plantName: row.plant_name,
    state: row.state,
    leadingCause: row.leading_cause,
    priority: row.priority,
    audience: row.audience,
    answers: row.answer_count,
    assignedTo: row.assigned_to,
    closedHow: row.closed_how,
    createdAt: row.created_at,
    changedAt: row.changed_at,
    atWork: atWork(work.filter(({ case_ref }) => case_ref === row.ref)),
  };
}
