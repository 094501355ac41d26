import { InputError } from '../../shared/common/errors.ts';
import { Problem } from '../server/problem.ts';
import { eraseCase } from '../server/services/cases.ts';
import { openLink, withdraw } from '../server/services/links.ts';
import { erasePlant } from '../server/services/plants.ts';
import { linkStrengths } from '../store/tables.ts';
import type { Io, Say } from './io.ts';
import { type Environment, withStore } from './with-store.ts';

/**
 * Runs `gaugewalk withdraw LINK [--erase]`: for a link that got into wrong hands, or somebody who wants to be
 * forgotten. LINK is the link itself or the address that ends with it, of either strength.
 */
export async function runWithdraw(
  io: Io,
  say: Say,
  address: string,
  options: { readonly erase?: boolean },
  environment: Environment,
): Promise<void> {
  const token = address.split('/').at(-1) ?? '';
  await withStore(environment, async (store) => {
    const deps = { store, clock: () => new Date() };
    const link = await openLink(store.db, token, 'read').catch((error: unknown) => {
      if (error instanceof Problem) throw new InputError('link', error.message);
      throw error;
    });
    if (link.case_ref !== null) {
      if (options.erase) await eraseCase(deps, link.case_ref);
      else await withdraw(deps, { caseRef: link.case_ref }, linkStrengths);
    } else if (link.plant_ref !== null) {
      if (options.erase) await erasePlant(deps, link.plant_ref);
      else await withdraw(deps, { plantRef: link.plant_ref }, linkStrengths);
    }
    io.out(`${say(options.erase ? 'erased' : 'withdrawn')}\n`);
  });
}
