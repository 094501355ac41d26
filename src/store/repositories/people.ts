import type { Db, Trx } from '../store.ts';
import type { Role } from '../tables.ts';

/** Queries on signed-in people beside what the authentication library does itself. */

export interface Person {
  readonly id: string;
  readonly name: string;
  readonly email: string;
  readonly role: Role;
}

const columns = ['id', 'name', 'email', 'role'] as const;

export function listPeople(db: Db): Promise<Person[]> {
  return db.selectFrom('user').select(columns).orderBy('name').orderBy('id').execute();
}

export function findPerson(db: Db, id: string): Promise<Person | undefined> {
  return db.selectFrom('user').select(columns).where('id', '=', id).executeTakeFirst();
}

export async function changeRole(db: Db, id: string, role: Role): Promise<void> {
  await db.updateTable('user').set({ role }).where('id', '=', id).execute();
}

/** Who is owner; nobody else can change that until the transaction ends. */
export async function lockOwners(trx: Trx): Promise<string[]> {
  const rows = await trx
    .updateTable('user')
    .set({ role: 'owner' })
    .where('role', '=', 'owner')
    .returning('id')
    .execute();
  return rows.map(({ id }) => id);
}

/** Removes a person with sessions and password; notes and cases stay, without the name. */
export async function deletePerson(db: Db, id: string): Promise<void> {
  await db.deleteFrom('user').where('id', '=', id).execute();
}
