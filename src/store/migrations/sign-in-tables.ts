import type { CreateTableBuilder } from 'kysely';
import type { StoreKind } from '../store.ts';

type Create = <T extends string, C extends string>(
  name: T,
  columns: (table: CreateTableBuilder<T>) => CreateTableBuilder<T, C>,
) => Promise<void>;

/**
 * The tables better-auth reads and writes, in its own column names and, per database, its own column types.
 * They stand in our migrations so that one lock and one history cover everything; a test compares them with what the
 * library asks for.
 */
export async function signInTables(create: Create, kind: StoreKind): Promise<void> {
  const moment = kind === 'sqlite' ? 'text' : 'timestamptz';
  const yesNo = kind === 'sqlite' ? 'integer' : 'boolean';

  await create('user', (t) =>
    t
      .addColumn('id', 'text', (c) => c.primaryKey())
      .addColumn('name', 'text', (c) => c.notNull())
      .addColumn('email', 'text', (c) => c.notNull().unique())
      .addColumn('emailVerified', yesNo, (c) => c.notNull())
      .addColumn('image', 'text')
      .addColumn('createdAt', moment, (c) => c.notNull())
      .addColumn('updatedAt', moment, (c) => c.notNull())
      .addColumn('role', 'text', (c) => c.notNull()),
  );
  await create('session', (t) =>
    t
      .addColumn('id', 'text', (c) => c.primaryKey())
      .addColumn('expiresAt', moment, (c) => c.notNull())
      .addColumn('token', 'text', (c) => c.notNull().unique())
      .addColumn('createdAt', moment, (c) => c.notNull())
      .addColumn('updatedAt', moment, (c) => c.notNull())
      .addColumn('ipAddress', 'text')
      .addColumn('userAgent', 'text')
      .addColumn('userId', 'text', (c) => c.notNull().references('user.id').onDelete('cascade')),
  );
  await create('account', (t) =>
    t
      .addColumn('id', 'text', (c) => c.primaryKey())
      .addColumn('accountId', 'text', (c) => c.notNull())
      .addColumn('providerId', 'text', (c) => c.notNull())
      .addColumn('userId', 'text', (c) => c.notNull().references('user.id').onDelete('cascade'))
      .addColumn('accessToken', 'text')
      .addColumn('refreshToken', 'text')
      .addColumn('idToken', 'text')
      .addColumn('accessTokenExpiresAt', moment)
      .addColumn('refreshTokenExpiresAt', moment)
      .addColumn('scope', 'text')
      .addColumn('password', 'text')
      .addColumn('createdAt', moment, (c) => c.notNull())
      .addColumn('updatedAt', moment, (c) => c.notNull()),
  );
  await create('verification', (t) =>
    t
      .addColumn('id', 'text', (c) => c.primaryKey())
      .addColumn('identifier', 'text', (c) => c.notNull())
      .addColumn('value', 'text', (c) => c.notNull())
      .addColumn('expiresAt', moment, (c) => c.notNull())
      .addColumn('createdAt', moment, (c) => c.notNull())
      .addColumn('updatedAt', moment, (c) => c.notNull()),
  );
}
