/** Further members a problem may have. */
export interface ProblemExtra {
  /** the place in what was sent */
  readonly where?: string;
  readonly errors?: readonly { readonly where: string; readonly message: string }[];
  readonly retryAfterS?: number;
  /** what came between */
  readonly count?: number;
  readonly answers?: readonly unknown[];
}

/**
 * Every error leaves the server as a problem document (RFC 9457). A `Problem` is thrown where one is known; `code`
 * makes its `type`, `extra` its further members. Nothing internal goes into one.
 */
export class Problem extends Error {
  override readonly name = 'Problem';
  readonly status: number;
  readonly code: string | undefined;
  readonly extra: ProblemExtra;

  constructor(status: number, detail: string, code?: string, extra: ProblemExtra = {}) {
    super(detail);
    this.status = status;
    this.code = code;
    this.extra = extra;
  }
}

const titles: Readonly<Record<number, string>> = {
  400: 'Not understood',
  401: 'Sign in first',
  403: 'Not allowed',
  404: 'Not found',
  405: 'Not possible here',
  409: 'In conflict with what is stored',
  410: 'Withdrawn',
  413: 'Too large',
  415: 'Not JSON',
  422: 'Cannot be used',
  429: 'Too many requests',
  500: 'Something went wrong here',
  503: 'Not available just now',
};

/** The problem document as a response. */
export function problemResponse(problem: Problem, headers: Record<string, string> = {}): Response {
  const body = {
    type: problem.code ? `/problems/${problem.code}` : 'about:blank',
    title: titles[problem.status] ?? 'Refused',
    status: problem.status,
    detail: problem.message,
    ...problem.extra,
  };
  return new Response(JSON.stringify(body), {
    status: problem.status,
    headers: {
      'content-type': 'application/problem+json',
      'cache-control': 'no-store',
      ...headers,
    },
  });
}

export const notFound = (): Problem =>
  new Problem(
    404,
    'There is nothing under this link, reference or address. /openapi.json lists the addresses.',
  );
