import type { Store } from '../../src/store/store.ts';
import type { Role } from '../../src/store/tables.ts';
import { fernhollow } from './stand-in-judge.ts';
import { openedCase, type Sent, type TestServer, testServer } from './test-server.ts';

export const PASSWORD = 'a long enough password';

/** A server with one person of each role signed in. */
export interface Desk {
  readonly server: TestServer;
  readonly ids: Readonly<Record<Role, string>>;
  readonly cookies: Readonly<Record<Role, string>>;
  /** sends as somebody of that role */
  as(role: Role, method: string, path: string, body?: unknown): Promise<Sent>;
  signIn(email: string, password?: string): Promise<Sent>;
  /** a new case of a plant of that name, with its links and the desk's reference */
  namedCase(name: string): Promise<{ id: string; readId: string; ref: string }>;
}

export const cookieOf = ({ headers }: Sent): string =>
  headers
    .getSetCookie()
    .map((cookie) => cookie.split(';')[0])
    .join('; ');

export async function deskOn(store: Store): Promise<Desk> {
  const server = await testServer(store);
  const ids = {} as Record<Role, string>;
  const cookies = {} as Record<Role, string>;
  const signIn = (email: string, password = PASSWORD): Promise<Sent> =>
    server.send('POST', '/api/desk/sign-in', { email, password });
  const as = (role: Role, method: string, path: string, body?: unknown): Promise<Sent> =>
    server.send(method, path, body, { cookie: cookies[role] });
  for (const role of ['owner', 'agent', 'technician'] as const) {
    const person = { name: `The ${role}`, email: `${role}@example.org`, role, password: PASSWORD };
    ids[role] = (await server.deps.auth.addPerson(person)).id;
    cookies[role] = cookieOf(await signIn(person.email));
  }
  return {
    server,
    ids,
    cookies,
    as,
    signIn,
    async namedCase(name) {
      const links = await openedCase(server, { ...fernhollow, name });
      const search = `/api/desk/cases?search=${encodeURIComponent(name)}`;
      const { body } = await as('owner', 'GET', search);
      return { ...links, ref: body.cases[0].ref };
    },
  };
}
