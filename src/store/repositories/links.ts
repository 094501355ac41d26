import type { Db, Trx } from '../store.ts';
import type { LinkRow, LinkStrength } from '../tables.ts';

/** The only place with queries on links; they are known by their hash alone. */

export type LinkTarget = { readonly caseRef: string } | { readonly plantRef: string };

export async function insertLink(
  db: Db,
  hash: string,
  strength: LinkStrength,
  target: LinkTarget,
  now: string,
): Promise<void> {
  const row: LinkRow = {
    hash,
    strength,
    case_ref: 'caseRef' in target ? target.caseRef : null,
    plant_ref: 'plantRef' in target ? target.plantRef : null,
    created_at: now,
    withdrawn_at: null,
  };
  await db.insertInto('links').values(row).execute();
}

export function findLink(db: Db, hash: string): Promise<LinkRow | undefined> {
  return db.selectFrom('links').selectAll().where('hash', '=', hash).executeTakeFirst();
}

/** The links of a target that still open it, oldest first. */
export function openLinks(db: Db, target: LinkTarget): Promise<LinkRow[]> {
  const query = db.selectFrom('links').selectAll().where('withdrawn_at', 'is', null);
  return (
    'caseRef' in target
      ? query.where('case_ref', '=', target.caseRef)
      : query.where('plant_ref', '=', target.plantRef)
  )
    .orderBy('created_at')
    .orderBy('strength')
    .execute();
}

export async function withdrawLink(trx: Trx, hash: string, now: string): Promise<void> {
  await trx.updateTable('links').set({ withdrawn_at: now }).where('hash', '=', hash).execute();
}

/** Withdraws a target's links, of one strength or of both. They stay on record, so that they are known as withdrawn. */
export async function withdrawLinks(
  trx: Trx,
  target: LinkTarget,
  strengths: readonly LinkStrength[],
  now: string,
): Promise<void> {
  const query = trx
    .updateTable('links')
    .set({ withdrawn_at: now })
    .where('strength', 'in', strengths)
    .where('withdrawn_at', 'is', null);
  await ('caseRef' in target
    ? query.where('case_ref', '=', target.caseRef)
    : query.where('plant_ref', '=', target.plantRef)
  ).execute();
}
