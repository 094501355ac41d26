import { isDeepStrictEqual } from 'node:util';
import { jobsUnderWay, type WorkEntry } from '../../../shared/work/log.ts';
import type { WorkEvent } from '../../../shared/work/state.ts';
import { changeCase, lockCase } from '../../store/repositories/cases.ts';
import { appendWork, listWork, type NamedWorkEvent } from '../../store/repositories/work.ts';
import type { Db } from '../../store/store.ts';
import type { WorkEventRow } from '../../store/tables.ts';
import type { Deps } from '../deps.ts';
import { notFound, Problem } from '../problem.ts';

/** No job of a person comes near these; they bound what one link can store. */
const MAX_EVENTS = 2000;
const MAX_EVENT_LENGTH = 10_000;

export interface StoredWork extends Omit<WorkEntry, 'event'> {
  /** as it was sent */
  readonly event: unknown;
  /** told at the desk only */
  readonly by: string | null;
  readonly receivedAt: string;
}

/** What happened at the jobs of a case. Who reads by a link is told no names. */
export async function readWork(db: Db, ref: string, isNamed: boolean): Promise<StoredWork[]> {
  return (await listWork(db, ref)).map((row) => toStored(row, isNamed));
}

/**
 * Stores one event. The same sent again changes nothing. Whether it counts is told by the log itself (shared/work/log.ts):
 * all are kept in the order they came, so that every device comes to the same.
 */
export async function appendEvent(
  { store, clock }: Pick<Deps, 'store' | 'clock'>,
  ref: string,
  entry: WorkEntry,
  person: string | null,
): Promise<void> {
  const now = clock().toISOString();
  const event = entry.event && JSON.stringify(entry.event);
  if (event !== null && event.length > MAX_EVENT_LENGTH)
    throw new Problem(422, `event: at most ${MAX_EVENT_LENGTH} signs`, undefined, {
      where: 'event',
    });
  await store.write(async (trx, changed) => {
    if (!(await lockCase(trx, ref))) throw notFound();
    const rows = await listWork(trx, ref);
    const same = rows.find((row) => row.event_id === entry.eventId);
    if (same && isDeepStrictEqual(toEntry(same), entry)) return;
    if (same)
      throw new Problem(409, 'Another event was already sent under this eventId.', 'event-id-used');
    if (rows.length >= MAX_EVENTS)
      throw new Problem(409, `This case holds ${MAX_EVENTS} events at jobs.`, 'work-full');
    const { eventId, follows, job, part, device } = entry;
    await appendWork(trx, {
      ...{
        case_ref: ref,
        position: rows.length + 1,
        event_id: eventId,
        follows,
        job,
        part,
        device,
      },
      ...{ event, person, received_at: now },
    });
    await changeCase(trx, ref, {}, now);
    changed(ref);
  });
}

const eventOf = ({ event }: Pick<WorkEventRow, 'event'>): WorkEvent | null =>
  event === null ? null : JSON.parse(event);

function toEntry(row: WorkEventRow): WorkEntry {
  const { event_id: eventId, follows, job, part, device } = row;
  return { eventId, follows, job, part, device, event: eventOf(row) };
}

const toStored = (row: NamedWorkEvent, isNamed: boolean): StoredWork => ({
  ...toEntry(row),
  by: isNamed ? row.person_name : null,
  receivedAt: row.received_at,
});

/**
 * What the desk's list says of a case: the job that is not over at which the last thing happened that counts, and when. What
 * came too late to count is nothing that was done at the plant.
 */
export function atWork(rows: readonly WorkEventRow[]) {
  const received = new Map(rows.map((row) => [row.event_id, row]));
  const last = jobsUnderWay(rows.map(toEntry)).flatMap(({ job, part, counted }) => {
    const entry = counted.at(-1);
    const row = entry && received.get(entry.eventId);
    return row ? [{ job, part, row, at: entry.event.at ?? row.received_at }] : [];
  });
  const [latest] = last.sort((a, b) => b.row.position - a.row.position);
  return latest ? { job: latest.job, part: latest.part, at: latest.at } : null;
}
