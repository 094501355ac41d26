import type { MiddlewareHandler } from 'hono';
import { createMiddleware } from 'hono/factory';
import type { Person } from '../../store/repositories/people.ts';
import type { Role } from '../../store/tables.ts';
import type { AppEnv, Deps } from '../deps.ts';
import { Problem } from '../problem.ts';
import type { Allowed } from '../routes/live.ts';
import { deskCaseRow } from '../services/desk.ts';

type Door = MiddlewareHandler<AppEnv>[];

/** The desk's doors: who may pass. Each sets `person`; those for a case also ask whether the person may see it. */
export interface Doors {
  readonly anybody: Door;
  readonly callers: Door;
  readonly owners: Door;
  readonly caseAnybody: Door;
  readonly caseCallers: Door;
  readonly caseOwners: Door;
}

export function doors(deps: Pick<Deps, 'auth' | 'store'>): Doors {
  const callers = onlyRoles('agent', 'owner');
  const owners = onlyRoles('owner');
  const signed = signedIn(deps);
  const seen = seesCase(deps);
  return {
    anybody: [signed],
    callers: [signed, callers],
    owners: [signed, owners],
    caseAnybody: [signed, seen],
    caseCallers: [signed, callers, seen],
    caseOwners: [signed, owners, seen],
  };
}

/** 401 without a session. */
const signedIn = ({ auth }: Pick<Deps, 'auth'>) =>
  createMiddleware<AppEnv>(async function signedInOnly(c, next) {
    const person = await auth.personOf(c.req.raw.headers);
    if (!person) throw new Problem(401, 'Sign in first.', 'sign-in');
    c.set('person', person);
    await next();
  });

/** 403 for other roles. */
const onlyRoles = (...roles: Role[]) =>
  createMiddleware<AppEnv>(async function rolesOnly(c, next) {
    if (!roles.includes(c.var.person.role))
      throw new Problem(403, `This is for: ${roles.join(', ')}.`, 'role');
    await next();
  });

/** 404 for a case there is not, or that is not this person's to see. */
const seesCase = (deps: Pick<Deps, 'store'>) =>
  createMiddleware<AppEnv>(async function caseOnly(c, next) {
    await deskCaseRow(deps, c.var.person, c.req.param('ref') ?? '');
    await next();
  });

/** Whether the person may still see the case, if they are still signed in. */
export async function stillSees(
  deps: Pick<Deps, 'auth' | 'store'>,
  headers: Headers,
  ref: string,
): Promise<Allowed> {
  const person: Person | undefined = await deps.auth.personOf(headers);
  if (!person) return 'signed-out';
  try {
    await deskCaseRow(deps, person, ref);
    return 'yes';
  } catch (error) {
    if (error instanceof Problem) return 'no';
    throw error;
  }
}
