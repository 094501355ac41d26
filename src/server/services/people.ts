import {
  changeRole,
  deletePerson,
  findPerson,
  lockOwners,
  type Person,
} from '../../store/repositories/people.ts';
import type { Trx } from '../../store/store.ts';
import type { Role } from '../../store/tables.ts';
import type { Deps } from '../deps.ts';
import { notFound, Problem } from '../problem.ts';

type PeopleDeps = Pick<Deps, 'store' | 'auth'>;

export async function addPerson(
  { auth }: Pick<Deps, 'auth'>,
  person: { name: string; email: string; role: Role; password: string },
): Promise<Person> {
  if (await auth.findByEmail(person.email)) {
    throw new Problem(409, 'Somebody already signs in with this e-mail.', 'email-used');
  }
  return auth.addPerson(person);
}

/** Changes role or password. The last owner stays one, or nobody could let anybody in again. */
export async function changePerson(
  { store, auth }: PeopleDeps,
  id: string,
  change: { readonly role?: Role | undefined; readonly password?: string | undefined },
): Promise<Person> {
  await known({ store }, id);
  const { role } = change;
  if (role) {
    await store.write(async (trx) => {
      if (role !== 'owner') await keepAnOwner(trx, id);
      await changeRole(trx, id, role);
    });
  }
  if (change.password !== undefined) await auth.setPassword(id, change.password);
  return known({ store }, id);
}

export async function removePerson({ store }: Pick<Deps, 'store'>, id: string): Promise<void> {
  await known({ store }, id);
  await store.write(async (trx) => {
    await keepAnOwner(trx, id);
    await deletePerson(trx, id);
  });
}

async function known({ store }: Pick<Deps, 'store'>, id: string): Promise<Person> {
  const person = await findPerson(store.db, id);
  if (!person) throw notFound();
  return person;
}

async function keepAnOwner(trx: Trx, leaving: string): Promise<void> {
  const owners = await lockOwners(trx);
  if (owners.includes(leaving) && owners.length < 2)
    throw new Problem(409, 'The last owner stays owner; make another one first.', 'last-owner');
}
