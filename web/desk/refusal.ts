import { isOffline, NOT_ALLOWED, RequestError } from '../store/http.ts';

/** What the server may have against a change of people, by its own names or by the place in what was sent. */
const known = ['email-used', 'last-owner', 'email', 'name', 'password'];

/** The word that says why people stay as they were. */
export function refusalOf(error: unknown): string {
  if (isOffline(error)) return 'desk-offline';
  if (!(error instanceof RequestError)) throw error;
  if (error.status === NOT_ALLOWED) return 'people-owners';
  return known.includes(error.about) ? `people-refused-${error.about}` : 'desk-not-kept';
}
