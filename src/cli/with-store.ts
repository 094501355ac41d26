import { InputError } from '../../shared/common/errors.ts';
import { type Config, readConfig } from '../server/config.ts';
import { openStore, type Store } from '../store/store.ts';

export type Environment = Readonly<Record<string, string | undefined>>;

/** Opens the store the environment names, runs `work`, and closes it whatever happens. */
export async function withStore<T>(
  environment: Environment,
  work: (store: Store) => Promise<T>,
): Promise<T> {
  const config = readConfig(environment);
  const store = await openStore(config).catch(toInputError(config));
  try {
    return await work(store);
  } finally {
    await store.close();
  }
}

/** What keeps a store from opening is for the one who set it up to mend: one line, with the variable to look at. */
export const toInputError =
  ({ databaseUrl, dataDir }: Pick<Config, 'databaseUrl' | 'dataDir'>) =>
  (error: unknown): never => {
    const reason = error instanceof Error ? error.message || error.name : String(error);
    if (databaseUrl === undefined && isDamaged(error))
      throw new InputError(
        'DATA_DIR',
        `the store in ${dataDir} is damaged (${reason}); nothing was changed: put a copy of the folder in its place, or start with another folder`,
      );
    if (databaseUrl === undefined)
      throw new InputError('DATA_DIR', `the store in ${dataDir} cannot be opened: ${reason}`);
    throw new InputError(
      'DATABASE_URL',
      `the database cannot be used: ${reason || 'it does not answer'}`,
    );
  };

/** No SQLite file, or one whose pages do not hold together. */
const isDamaged = (error: unknown): boolean =>
  error instanceof Error && 'code' in error && /^SQLITE_(NOTADB|CORRUPT)/.test(String(error.code));
