import type { Context } from 'hono';
import { HTTPException } from 'hono/http-exception';
import { InputError } from '../../shared/common/errors.ts';
import type { AppEnv, Deps } from './deps.ts';
import { Problem, problemResponse } from './problem.ts';

const RETRY_S = 5;

/** Error codes of a database that is away, full of work or starting: nothing of the request is stored, try again. */
const AWAY =
  /^(ECONN|ETIMEDOUT|EPIPE|ENOTFOUND|EAI_AGAIN|SQLITE_BUSY|SQLITE_FULL|57P0|53|08|40001|40P01|55P03)/;

/** The one place that turns errors into answers. What is not known becomes a bare 500, with the cause in the log only. */
export const onError =
  ({ log }: Pick<Deps, 'log'>) =>
  (error: Error, c: Context<AppEnv>): Response => {
    if (error instanceof InputError) {
      return problemResponse(
        new Problem(422, `${error.where}: ${error.message}`, undefined, { where: error.where }),
      );
    }
    if (error instanceof Problem) return problemResponse(error, retryAfter(error));
    if (error instanceof HTTPException) return problemResponse(fromHttp(error));
    const { requestId } = c.var;
    const code = 'code' in error && typeof error.code === 'string' ? error.code : undefined;
    log.error(
      { requestId, code, error: error.name, message: error.message, stack: error.stack },
      'failed',
    );
    if (
      (code && AWAY.test(code)) ||
      /timeout exceeded when trying to connect|Connection terminated/.test(error.message)
    ) {
      const away = new Problem(
        503,
        'The store does not answer just now. Nothing was changed; send it again.',
        'store-away',
      );
      return problemResponse(away, { 'retry-after': String(RETRY_S) });
    }
    return problemResponse(
      new Problem(500, `Nothing you can mend; the server's log has it under ${requestId}.`),
    );
  };

function retryAfter({ status, extra: { retryAfterS } }: Problem): Record<string, string> {
  const seconds = retryAfterS ?? (status === 503 ? RETRY_S : undefined);
  return seconds === undefined ? {} : { 'retry-after': String(seconds) };
}

/** Errors the framework throws itself, in our words. */
function fromHttp({ status }: HTTPException): Problem {
  if (status === 415) return new Problem(415, 'Send the body as application/json.');
  return new Problem(
    status,
    status === 400
      ? 'The body is not JSON. Send one object, names and texts in double quotes.'
      : 'This cannot be answered.',
  );
}
