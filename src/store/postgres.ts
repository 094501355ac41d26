import { PostgresDialect } from 'kysely';
import pg from 'pg';

/** A transaction left open by a server that died must not hold a case for longer than this. */
const IDLE_IN_TRANSACTION_MS = 30_000;
const CONNECT_MS = 10_000;
const CONNECTIONS = 10;

export interface PostgresConnections {
  readonly dialect: PostgresDialect;
  readonly pool: pg.Pool;
}

/** Opens a pool of connections. `onError` hears of connections lost while idle; the pool replaces them by itself. */
export function postgresConnections(
  url: string,
  onError: (error: Error) => void,
): PostgresConnections {
  const pool = new pg.Pool({
    connectionString: url,
    max: CONNECTIONS,
    connectionTimeoutMillis: CONNECT_MS,
    idle_in_transaction_session_timeout: IDLE_IN_TRANSACTION_MS,
    application_name: 'gaugewalk',
    keepAlive: true,
  });
  pool.on('error', onError);
  // The pool listens to idle connections only. One lost at work fails what it was doing, which is told there; without a
  // listener of its own it would end the whole process.
  pool.on('connect', (client) => client.on('error', () => undefined));
  return { dialect: new PostgresDialect({ pool }), pool };
}
