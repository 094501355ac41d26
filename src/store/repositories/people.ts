import type { Db } from '../store.ts';
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

export async function countOwners(db: Db): Promise<number> {
  const row = await db
    .selectFrom('user')
    .select((eb) => eb.fn.countAll().as('count'))
    .where('role', '=', 'owner')
    .executeTakeFirstOrThrow();
  return Number(row.count);
}

/** Removes a person with sessions and password; notes and cases stay, without the name. */
export async function deletePerson(db: Db, id: string): Promise<void> {
  await db.deleteFrom('user').where('id', '=', id).execute();
}
