import type { Plant } from '../../shared/plant/schema.ts';
import { send } from '../store/http.ts';

/** The desk's side of the HTTP interface: only what its screens use. */

export interface Person {
  readonly id: string;
  readonly name: string;
  readonly role: string;
}

export interface DeskCase {
  readonly ref: string;
  readonly plantName: string | null;
  readonly state: string;
  readonly leadingCause: string | null;
  readonly answers: number;
  readonly assignedTo: string | null;
  readonly changedAt: string;
}

export interface Note {
  readonly id: string;
  readonly by: string | null;
  readonly at: string;
  readonly text: string;
}

export interface Call {
  readonly caller: 'at-plant' | 'away' | null;
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
  readonly assigned: string;
}

export const states = ['asking', 'planned', 'stopped', 'closed'] as const;
export const closings = ['settled', 'sent', 'referred', 'not-reached', 'twice'] as const;

/** Whether somebody signed in with this browser: only then is the server asked who it is. */
const SIGNED_IN = 'gaugewalk-signed-in';

export const mayBeSignedIn = (): boolean => localStorage.getItem(SIGNED_IN) !== null;
export const me = (): Promise<Person> => send('GET', '/api/desk/me');

export async function signIn(email: string, password: string): Promise<Person> {
  const person = await send<Person>('POST', '/api/desk/sign-in', { email, password });
  localStorage.setItem(SIGNED_IN, 'yes');
  return person;
}

export async function signOut(): Promise<void> {
  localStorage.removeItem(SIGNED_IN);
  await send('POST', '/api/desk/sign-out');
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

export const openCase = (plant: Plant, language: string): Promise<{ ref: string }> =>
  send('POST', '/api/desk/cases', { plant, audience: 'agent', language });

export const readBeside = (base: string): Promise<Beside> => send('GET', base);
export const writeNote = (base: string, text: string): Promise<Note> =>
  send('POST', `${base}/notes`, { text });
export const changeCall = (base: string, part: Partial<Call>): Promise<Call> =>
  send('PATCH', `${base}/call`, part);
export const closeCase = (base: string, how: string): Promise<void> =>
  send('POST', `${base}/close`, { how });
