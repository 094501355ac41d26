import type { Answer, Audience } from '../../shared/case/answer.ts';
import type { Plant } from '../../shared/plant/schema.ts';
import { newUuid } from '../common/ids.ts';
import { putCase } from './db.ts';
import { send } from './http.ts';
import type { KeptCase } from './kept.ts';

interface Start {
  readonly plant: Plant;
  readonly audience: Audience;
  readonly answers?: readonly Answer[];
  readonly local?: boolean;
  readonly base?: string;
  readonly sent?: number;
  readonly key?: string;
  readonly record?: KeptCase['record'];
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
    closed: false,
    work: [],
    done: [],
    ...(rest.record && { record: rest.record }),
  };
  await putCase(kept);
  return kept;
}

interface SentCase {
  readonly case: {
    readonly answers: Answer[];
    readonly plant: Plant;
    readonly audience: Audience;
    readonly mayContinue: boolean;
  };
}

/** Fetches a case from the server by where it keeps it, and keeps it here under a key of the same name. */
export async function keepFetched(base: string, audience?: Audience): Promise<KeptCase> {
  const { case: theirs } = await send<SentCase>('GET', base);
  const kept = await keepNew({
    plant: theirs.plant,
    answers: theirs.answers,
    audience: audience ?? theirs.audience,
    base,
    sent: theirs.answers.length,
    key: base.split('/').at(-1) ?? newUuid(),
  });
  if (theirs.mayContinue) return kept;
  const readOnly = { ...kept, closed: true };
  await putCase(readOnly);
  return readOnly;
}
