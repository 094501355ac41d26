import type pg from 'pg';

const RETRY_MS = 1000;

/**
 * Keeps one connection listening on a channel and opens it again when it is lost; what is missed meanwhile is found by
 * polling. Returns the way to stop. A database without LISTEN only costs the retries.
 */
export function listen(
  pool: pg.Pool,
  channel: string,
  heard: (payload: string) => void,
  onError: (error: Error) => void,
): () => void {
  let stopped = false;
  let client: pg.PoolClient | undefined;
  let timer: NodeJS.Timeout | undefined;

  const again = (error: Error): void => {
    client?.release(true);
    client = undefined;
    if (stopped) return;
    onError(error);
    timer = setTimeout(open, RETRY_MS);
    timer.unref();
  };

  const open = async (): Promise<void> => {
    try {
      const connection = await pool.connect();
      if (stopped) return connection.release(true);
      client = connection;
      let lost = false;
      const once = (error: Error): void => {
        if (lost) return;
        lost = true;
        again(error);
      };
      connection.on('notification', (message) => heard(message.payload ?? ''));
      connection.on('error', once);
      await connection.query(`listen ${channel}`).catch(once);
    } catch (error) {
      again(error instanceof Error ? error : new Error(String(error)));
    }
  };
  void open();

  return () => {
    stopped = true;
    clearTimeout(timer);
    client?.release(true);
    client = undefined;
  };
}
