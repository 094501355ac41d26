/** A request that went wrong: the problem document's words (RFC 9457), or that nobody answered. */
export class RequestError extends Error {
  readonly status: number;
  /** the problem's own name, or the place in what was sent that cannot be used; else empty */
  readonly about: string;

  constructor(status: number, detail = '', about = '') {
    super(detail);
    this.status = status;
    this.about = about;
  }
}

/** Nobody answered: no network, or the server is down. */
const OFFLINE = 0;

/** Whether nobody answered at all, told apart from a refusal. */
export const isOffline = (error: unknown): boolean =>
  error instanceof RequestError && error.status === OFFLINE;

/** The role or link of who asks does not allow it. */
export const NOT_ALLOWED = 403;

/** Told to the window when the server does not know who asks: the sign-in has ended, or does not fit. */
export const SIGNED_OUT = 'gaugewalk-signed-out';

/** Sends JSON and gives JSON back. Throws a RequestError with the status (0: nobody answered) and the server's words. */
export async function send<T>(method: string, path: string, body?: unknown): Promise<T> {
  let response: Response;
  try {
    response = await fetch(path, {
      method,
      headers: {
        accept: 'application/json',
        ...(body !== undefined && { 'content-type': 'application/json' }),
      },
      ...(body !== undefined && { body: JSON.stringify(body) }),
    });
  } catch {
    throw new RequestError(OFFLINE);
  }
  const text = await response.text();
  if (response.status === 401) dispatchEvent(new Event(SIGNED_OUT));
  if (!response.ok) throw refusal(response.status, text);
  return (text === '' ? undefined : JSON.parse(text)) as T;
}

function refusal(status: number, text: string): RequestError {
  try {
    const { detail, type, where } = JSON.parse(text);
    return new RequestError(status, detail, where ?? type?.split('/').at(-1));
  } catch {
    return new RequestError(status);
  }
}
