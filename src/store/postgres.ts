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
  return { dialect: new PostgresDialect({ pool }), pool };
}
