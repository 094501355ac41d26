import { betterAuth } from 'better-auth';
import { findPerson, type Person } from '../store/repositories/people.ts';
import { sharedSecret } from '../store/repositories/settings.ts';
import type { Store } from '../store/store.ts';
import type { Role } from '../store/tables.ts';

/** A working day; afterwards one signs in again. */
const SESSION_S = 12 * 60 * 60;
export const MIN_PASSWORD = 12;

/** What the desk needs of the authentication library, and no more: there is no signing up and no mail. */
export interface Auth {
  /** The session's cookies, or undefined when e-mail and password do not fit. */
  signIn(email: string, password: string): Promise<Headers | undefined>;
  /** Ends the session; the cookies that clear it. */
  signOut(headers: Headers): Promise<Headers>;
  /** Who a request's cookie belongs to. */
  personOf(headers: Headers): Promise<Person | undefined>;
  addPerson(person: { name: string; email: string; role: Role; password: string }): Promise<Person>;
  /** Sets a new password and ends the person's sessions. */
  setPassword(personId: string, password: string): Promise<void>;
  /** Undefined when nobody has this e-mail. */
  findByEmail(email: string): Promise<Person | undefined>;
  /** Whether this is the person's password. */
  checkPassword(personId: string, password: string): Promise<boolean>;
}

/** The library's options in one place; a test compares the tables it asks for with our migrations. */
export const authOptions = (store: Store, secret: string, publicUrl: string) => ({
  baseURL: publicUrl,
  secret,
  database: { db: store.db, type: store.kind },
  emailAndPassword: {
    enabled: true,
    disableSignUp: true,
    minPasswordLength: MIN_PASSWORD,
  },
  user: { additionalFields: { role: { type: 'string' as const, required: true, input: false } } },
  session: { expiresIn: SESSION_S, disableSessionRefresh: true },
  advanced: {
    cookiePrefix: 'gaugewalk',
    useSecureCookies: publicUrl.startsWith('https:'),
    ipAddress: { disableIpTracking: true },
  },
  rateLimit: { enabled: false }, // the server's own counts, shared by all servers, stand before it
  telemetry: { enabled: false },
  logger: { disabled: true },
});

/** Only the cookie reaches the library: neither address nor browser is stored with a session. */
const onlyCookie = (headers: Headers): Headers =>
  new Headers({ cookie: headers.get('cookie') ?? '' });

export async function createAuth(store: Store, publicUrl: string): Promise<Auth> {
  const secret = await sharedSecret(store.db, 'session-secret');
  const auth = betterAuth(authOptions(store, secret, publicUrl));
  const { internalAdapter, password } = await auth.$context;

  return {
    async signIn(email, given) {
      const response = await auth.api.signInEmail({
        body: { email, password: given },
        headers: new Headers(),
        asResponse: true,
      });
      return response.ok ? response.headers : undefined;
    },
    async signOut(headers) {
      const response = await auth.api.signOut({ headers: onlyCookie(headers), asResponse: true });
      return response.headers;
    },
    async personOf(headers) {
      if (!headers.get('cookie')) return undefined;
      const found = await auth.api.getSession({ headers: onlyCookie(headers) });
      return found ? findPerson(store.db, found.user.id) : undefined;
    },
    async addPerson({ name, email, role, password: given }) {
      const hash = await password.hash(given);
      const user = await internalAdapter.createUser(
        { name, email: email.toLowerCase(), role, emailVerified: false },
        { method: 'admin' },
      );
      await internalAdapter.linkAccount({
        userId: user.id,
        providerId: 'credential',
        accountId: user.id,
        password: hash,
      });
      return { id: user.id, name, email: user.email, role };
    },
    async setPassword(personId, given) {
      await internalAdapter.updatePassword(personId, await password.hash(given));
      await internalAdapter.deleteUserSessions(personId);
    },
    async findByEmail(email) {
      const found = await internalAdapter.findUserByEmail(email.toLowerCase());
      return found ? findPerson(store.db, found.user.id) : undefined;
    },
    async checkPassword(personId, given) {
      const account = await internalAdapter.findCredentialAccount(personId);
      return account?.password
        ? password.verify({ hash: account.password, password: given })
        : false;
    },
  };
}
