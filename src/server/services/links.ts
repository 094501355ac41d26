import {
  findLink,
  insertLink,
  type LinkTarget,
  openLinks,
  withdrawLink,
  withdrawLinks,
} from '../../store/repositories/links.ts';
import type { Db } from '../../store/store.ts';
import type { LinkRow, LinkStrength } from '../../store/tables.ts';
import type { Deps } from '../deps.ts';
import { notFound, Problem } from '../problem.ts';
import { hashToken, tokenPattern } from '../tokens.ts';

/**
 * What a link opens. Throws 404 for none, 410 for one withdrawn, and 403 when `need` is "continue" and the link only
 * reads.
 */
export async function openLink(db: Db, token: string, need: LinkStrength): Promise<LinkRow> {
  const link = tokenPattern.test(token) ? await findLink(db, hashToken(token)) : undefined;
  if (!link) throw notFound();
  if (link.withdrawn_at !== null) throw new Problem(410, 'This link was withdrawn.', 'withdrawn');
  if (need === 'continue' && link.strength === 'read') {
    throw new Problem(403, 'This link only lets you read.', 'read-only');
  }
  return link;
}

/** The case a link opens; a plant's link opens none. */
export async function openCaseLink(db: Db, token: string, need: LinkStrength): Promise<string> {
  const { case_ref } = await openLink(db, token, need);
  if (case_ref === null) throw notFound();
  return case_ref;
}

export async function openPlantLink(db: Db, token: string, need: LinkStrength): Promise<string> {
  const { plant_ref } = await openLink(db, token, need);
  if (plant_ref === null) throw notFound();
  return plant_ref;
}

/** Makes a new link; the token is told once and never stored. */
export async function makeLink(
  deps: Pick<Deps, 'newToken'>,
  db: Db,
  target: LinkTarget,
  strength: LinkStrength,
  now: string,
): Promise<string> {
  const token = deps.newToken();
  await insertLink(db, hashToken(token), strength, target, now);
  return token;
}

export async function makeBothLinks(
  deps: Pick<Deps, 'newToken'>,
  db: Db,
  target: LinkTarget,
  now: string,
): Promise<{ id: string; readId: string }> {
  return {
    id: await makeLink(deps, db, target, 'continue', now),
    readId: await makeLink(deps, db, target, 'read', now),
  };
}

/** Withdraws links; whoever watches the case through one is cut off. */
export async function withdraw(
  deps: Pick<Deps, 'store' | 'clock'>,
  target: LinkTarget,
  strengths: readonly LinkStrength[],
): Promise<void> {
  const now = deps.clock().toISOString();
  await deps.store.write(async (trx, changed) => {
    await withdrawLinks(trx, target, strengths, now);
    if ('caseRef' in target) changed(target.caseRef);
  });
}

/** One link as it can be listed: known by the beginning of its hash, because the link itself is told once. */
export interface ListedLink {
  readonly ref: string;
  readonly strength: LinkStrength;
  readonly createdAt: string;
  /** the link through which it was asked */
  readonly own: boolean;
}

const REF_LENGTH = 16;
const refOf = (hash: string): string => hash.slice(0, REF_LENGTH);

/** The links that still open a case or plant, oldest first; `through` is the one the asker came by. */
export async function listLinks(
  db: Db,
  target: LinkTarget,
  through?: LinkRow,
): Promise<ListedLink[]> {
  return (await openLinks(db, target)).map(({ hash, strength, created_at }) => ({
    ref: refOf(hash),
    strength,
    createdAt: created_at,
    own: hash === through?.hash,
  }));
}

/** Withdraws one link by its ref. Throws 404 when the target has no such open link. */
export async function withdrawOne(
  deps: Pick<Deps, 'store' | 'clock'>,
  target: LinkTarget,
  ref: string,
): Promise<void> {
  const link = (await openLinks(deps.store.db, target)).find(({ hash }) => refOf(hash) === ref);
  if (!link) throw notFound();
  const now = deps.clock().toISOString();
  await deps.store.write(async (trx, changed) => {
    await withdrawLink(trx, link.hash, now);
    if ('caseRef' in target) changed(target.caseRef);
  });
}
