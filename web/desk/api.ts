import type { Plant } from '../../shared/plant/schema.ts';
import { forgetCall, forgetCase, forgetDesk } from '../store/db.ts';
import { send } from '../store/http.ts';
import { keptKeyOf } from '../store/new-case.ts';
import { keepAsked } from './asked.ts';
import { draftOf, forgetDrafts, keepDraft } from './draft.ts';
import { type Role, rememberRole } from './signed-in.ts';

/** The desk's side of the HTTP interface: only what its screens use. */

export interface Person {
  readonly id: string;
  readonly name: string;
  readonly email: string;
  readonly role: Role;
}

export interface DeskCase {
  readonly ref: string;
  readonly plantName: string | null;
  readonly state: string;
  readonly leadingCause: string | null;
  readonly priority: string;
  readonly answers: number;
  readonly assignedTo: string | null;
  readonly closedHow: string | null;
  readonly changedAt: string;
  /** the last thing that happened at a job that is not over */
  readonly atWork: { readonly at: string } | null;
}

export interface Note {
  readonly id: string;
  readonly by: string | null;
  readonly at: string;
  readonly text: string;
}

export interface Call {
  readonly callBack: string | null;
  readonly access: string | null;
  readonly stopPhraseAt: string | null;
}

export interface Beside {
  readonly desk: DeskCase;
  readonly call: Call;
  readonly notes: readonly Note[];
}

export interface Asked {
  readonly search: string;
  readonly state: string;
  readonly priority: string;
  readonly assigned: string;
}

export const states = ['asking', 'planned', 'stopped', 'closed'] as const;
export const priorities = ['urgent', 'soon', 'normal'] as const;
export const roles: readonly Role[] = ['agent', 'technician', 'owner'];
export const closings = ['settled', 'sent', 'referred', 'not-reached', 'twice'] as const;

export async function me(): Promise<Person> {
  const person = await send<Person>('GET', '/api/desk/me');
  rememberRole(person.role);
  return person;
}

export async function signIn(email: string, password: string): Promise<Person> {
  const person = await send<Person>('POST', '/api/desk/sign-in', { email, password });
  rememberRole(person.role);
  return person;
}

export async function signOut(): Promise<void> {
  await forgetDesk();
  forgetDrafts();
  keepAsked(null);
  await send('POST', '/api/desk/sign-out');
  rememberRole(null);
}

export function listCases(
  asked: Asked,
  after?: string,
): Promise<{ cases: DeskCase[]; next: string | null }> {
  const query = new URLSearchParams({ limit: '50' });
  for (const [name, value] of Object.entries({ ...asked, after: after ?? '' })) {
    if (value !== '') query.set(name, value);
  }
  return send('GET', `/api/desk/cases?${query}`);
}

/** How many cases stand in each state. */
export const countCases = (): Promise<Readonly<Record<string, number>>> =>
  send('GET', '/api/desk/counts');

export const openCase = (
  plant: Plant,
  language: string,
  callBack: string | undefined,
): Promise<{ ref: string }> =>
  send('POST', '/api/desk/cases', { plant, audience: 'agent', language, callBack });

const SPOKEN = 4;

/** The beginning of a case's reference in two groups, as it is read aloud and found again. */
export const spokenRef = (ref: string): string =>
  `${ref.slice(0, SPOKEN)}\u00a0${ref.slice(SPOKEN, 2 * SPOKEN)}`;

export const readBeside = (base: string): Promise<Beside> => send('GET', base);
export const writeNote = (base: string, text: string): Promise<Note> =>
  send('POST', `${base}/notes`, { text });
export const changeCall = (base: string, part: Partial<Call>): Promise<Call> =>
  send('PATCH', `${base}/call`, part);
/** Null: nobody has it any more. */
export const assignCase = (base: string, to: string | null): Promise<void> =>
  send('POST', `${base}/assign`, { to });
/** What was begun as a note is written down before: there is no line for it afterwards. */
export async function closeCase(base: string, how: string): Promise<void> {
  const begun = draftOf(base).trim();
  if (begun !== '') {
    await writeNote(base, begun);
    keepDraft(base, '');
  }
  await send('POST', `${base}/close`, { how });
  if (how !== 'sent') await forgetCall(keptKeyOf(base));
}

/** Everything about it, here as on the server. */
export async function eraseCase(base: string): Promise<void> {
  await send('DELETE', base);
  keepDraft(base, '');
  await forgetCase(keptKeyOf(base));
}

export const reopenCase = (base: string): Promise<void> => send('POST', `${base}/reopen`);

export const listPeople = (): Promise<{ people: Person[] }> => send('GET', '/api/desk/people');
export const addPerson = (person: Omit<Person, 'id'> & { password: string }): Promise<Person> =>
  send('POST', '/api/desk/people', person);
export const changePerson = (
  id: string,
  change: { role?: Role; password?: string },
): Promise<Person> => send('PATCH', `/api/desk/people/${id}`, change);
export const removePerson = (id: string): Promise<void> => send('DELETE', `/api/desk/people/${id}`);
