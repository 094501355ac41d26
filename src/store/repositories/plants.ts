import type { Db, Trx } from '../store.ts';
import type { PlantRow } from '../tables.ts';
import { contains } from './search.ts';

/** The only place with queries on plants. */

export async function insertPlant(db: Db, row: PlantRow): Promise<void> {
  await db.insertInto('plants').values(row).execute();
}

export function findPlant(db: Db, ref: string): Promise<PlantRow | undefined> {
  return db.selectFrom('plants').selectAll().where('ref', '=', ref).executeTakeFirst();
}

/** Plants by name. */
export function listPlants(db: Db, search: string | undefined, limit: number): Promise<PlantRow[]> {
  let query = db.selectFrom('plants').selectAll();
  if (search) {
    query = query.where(contains('search_text', search));
  }
  return query.orderBy('name').orderBy('ref').limit(limit).execute();
}

export async function deletePlant(trx: Trx, ref: string): Promise<void> {
  await trx.deleteFrom('plants').where('ref', '=', ref).execute();
}
