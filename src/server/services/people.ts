import {
  changeRole,
  countOwners,
  deletePerson,
  findPerson,
  type Person,
} from '../../store/repositories/people.ts';
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
  const person = await known({ store }, id);
  if (change.role && change.role !== person.role) {
    if (person.role === 'owner') await keepOneOwner({ store });
    await changeRole(store.db, id, change.role);
  }
  if (change.password !== undefined) await auth.setPassword(id, change.password);
  return known({ store }, id);
}

export async function removePerson({ store }: Pick<Deps, 'store'>, id: string): Promise<void> {
  const person = await known({ store }, id);
  if (person.role === 'owner') await keepOneOwner({ store });
  await deletePerson(store.db, id);
}

async function known({ store }: Pick<Deps, 'store'>, id: string): Promise<Person> {
  const person = await findPerson(store.db, id);
  if (!person) throw notFound();
  return person;
}

async function keepOneOwner({ store }: Pick<Deps, 'store'>): Promise<void> {
  if ((await countOwners(store.db)) < 2)
    throw new Problem(409, 'The last owner stays owner; make another one first.', 'last-owner');
}
