import { Problem } from './problem.ts';

interface Issue {
  readonly code?: string | undefined;
  readonly path: readonly PropertyKey[];
  readonly message: string;
  readonly keys?: readonly string[] | undefined;
}

/** More would only repeat the first mistake. */
const SHOWN = 10;

/** What a schema found wrong, as a 422 problem naming each place the way the sender wrote it ("plant.line[2].kind"). */
export function schemaProblem(target: string, issues: readonly Issue[]): Problem {
  const errors = issues.slice(0, SHOWN).map((issue) => ({
    where: `${target === 'json' ? '' : `${target} `}${placeOf(issue)}`,
    message: messageOf(issue),
  }));
  const first = errors[0] ?? { where: '', message: 'not understood' };
  const detail = first.where ? `${first.where}: ${first.message}` : first.message;
  return new Problem(422, detail, undefined, { where: first.where, errors });
}

function placeOf({ path, keys }: Issue): string {
  const steps = keys?.[0] === undefined ? path : [...path, keys[0]];
  return steps
    .map((step, i) =>
      typeof step === 'number' ? `[${step}]` : `${i > 0 ? '.' : ''}${String(step).slice(0, 80)}`,
    )
    .join('');
}

function messageOf({ keys, message }: Issue): string {
  if (keys) return 'unknown field; check its spelling or leave it out';
  return message.endsWith('received undefined') ? 'is missing' : message;
}
