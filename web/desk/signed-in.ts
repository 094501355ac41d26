/** What this browser knows of who is signed in at the desk without asking the server: it holds without a network too. */

export type Role = 'agent' | 'technician' | 'owner';

const SIGNED_IN = 'gaugewalk-signed-in';

/** The role last signed in with; null: nobody is, and the server need not be asked. */
export const signedInRole = (): string | null => localStorage.getItem(SIGNED_IN);

export function rememberRole(role: Role | null): void {
  if (role === null) localStorage.removeItem(SIGNED_IN);
  else localStorage.setItem(SIGNED_IN, role);
}

/** Whether the server keeps the case for the desk, so that a call and notes stand beside it. */
export const isAtDesk = (base: string | null): base is string =>
  base?.startsWith('/api/desk/') ?? false;
