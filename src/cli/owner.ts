import { password as askPassword, isCancel } from '@clack/prompts';
import { z } from 'zod';
import { InputError } from '../../shared/common/errors.ts';
import { createAuth, MIN_PASSWORD } from '../server/auth.ts';
import { changeRole } from '../store/repositories/people.ts';
import type { Io, Say } from './io.ts';
import { type Environment, withStore } from './with-store.ts';

/**
 * Runs `gaugewalk owner EMAIL [--name NAME]`: makes the first owner, or gives an owner who is locked out a new
 * password. The password is asked for on a terminal, else it is the first line of standard input; never an argument,
 * which others on the machine could read.
 */
export async function runOwner(
  io: Io,
  say: Say,
  email: string,
  options: { readonly name?: string },
  environment: Environment,
  onTerminal = process.stdin.isTTY === true,
): Promise<void> {
  if (!z.email().safeParse(email).success) throw new InputError(email, 'is no e-mail address');
  const password = onTerminal ? await ask(say) : (await io.readText('-')).split(/\r?\n/)[0];
  if (!password || password.length < MIN_PASSWORD || password.length > 128) {
    throw new InputError('password', `has ${MIN_PASSWORD} to 128 characters`);
  }
  await withStore(environment, async (store) => {
    const auth = await createAuth(store, 'http://127.0.0.1');
    const known = await auth.findByEmail(email);
    if (known) {
      await changeRole(store.db, known.id, 'owner');
      await auth.setPassword(known.id, password);
    } else {
      await auth.addPerson({ name: options.name ?? email, email, role: 'owner', password });
    }
    io.out(`${say(known ? 'owner-changed' : 'owner-made', { email })}\n`);
  });
}

async function ask(say: Say): Promise<string> {
  const given = await askPassword({ message: say('owner-password', { least: MIN_PASSWORD }) });
  if (isCancel(given)) throw new InputError('password', 'was not given; nothing was changed');
  return given;
}
