import type { Answer, Audience } from '../../shared/case/answer.ts';
import type { Plant } from '../../shared/plant/schema.ts';
import { newUuid } from '../common/ids.ts';
import { isAtDesk, signedInRole } from '../desk/signed-in.ts';
import { changeCase, putCase, readCase } from './db.ts';
import { isOffline, send } from './http.ts';
import type { KeptCase } from './kept.ts';
import { merged } from './merged.ts';

interface Start {
  readonly plant: Plant;
  readonly audience: Audience;
  readonly answers?: readonly Answer[];
  readonly local?: boolean;
  readonly base?: string;
  readonly sent?: number;
  readonly key?: string;
  readonly record?: KeptCase['record'];
  readonly closed?: boolean;
}

/** Keeps a new case in this browser; it reaches the server by the outbox. */
export async function keepNew({
  plant,
  audience,
  answers = [],
  ...rest
}: Start): Promise<KeptCase> {
  const now = new Date().toISOString();
  const kept: KeptCase = {
    key: rest.key ?? newUuid(),
    plant,
    answers,
    audience,
    createdAt: now,
    changedAt: now,
    base: rest.base ?? null,
    sent: rest.sent ?? 0,
    local: rest.local ?? false,
    closed: rest.closed ?? false,
    work: [],
    done: [],
    ...(rest.record && { record: rest.record }),
  };
  await putCase(kept);
  return kept;
}

/** Under which key a case of the server is kept here. */
export const keptKeyOf = (base: string): string => base.split('/').at(-1) ?? newUuid();

interface SentCase {
  readonly case: {
    readonly answers: Answer[];
    readonly plant: Plant;
    readonly audience: Audience;
    readonly mayContinue: boolean;
  };
}

/**
 * Fetches a case from the server by where it keeps it, and keeps it here under a key of the same name. What is kept here
 * already stays: answers not sent yet, jobs begun and done. What others did at jobs is heard once it is open (follow.ts).
 * Without a network it is opened as it is kept.
 */
export async function keepFetched(base: string, audience?: Audience): Promise<KeptCase> {
  const key = keptKeyOf(base);
  const before = await readCase(key);
  const theirs = await send<SentCase>('GET', base).catch((error: unknown) => {
    if (before && isOffline(error)) return null;
    throw error;
  });
  if (before && !theirs) return before;
  const { plant, answers, mayContinue, ...sent } = (theirs as SentCase).case;
  const closed = !mayContinue;
  const known = await changeCase(key, (now) => ({ ...merged(now, answers), closed }));
  if (known) return known;
  return keepNew({
    ...{ plant, answers, base, key, closed },
    audience: audience ?? sent.audience,
    sent: answers.length,
  });
}

/** Fetches a case of the desk, worded for whoever looks at it there. */
export const keepDeskCase = (ref: string, role: string): Promise<KeptCase> =>
  keepFetched(`/api/desk/cases/${ref}`, role === 'technician' ? 'technician' : 'agent');

const UUID_LENGTH = 36;

/**
 * A case as it is opened by its address: for who is signed in also one that this browser does not hold yet, or that was
 * closed to them before. Null: there is none here.
 */
export async function fromDesk(key: string, found: KeptCase | undefined): Promise<KeptCase | null> {
  const role = signedInRole();
  // the desk knows its cases by UUIDs; nothing else is worth asking for
  const isRef = key.length === UUID_LENGTH;
  if (role === null || !isRef || (found && !(found.closed && isAtDesk(found.base)))) {
    return found ?? null;
  }
  return keepDeskCase(key, role).catch(() => found ?? null);
}
