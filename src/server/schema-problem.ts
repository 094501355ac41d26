import type { z } from '@hono/zod-openapi';
import { joinPlace, messageOf, nameOf } from '../../shared/plant/messages.ts';
import { Problem } from './problem.ts';

type Issue = z.core.$ZodIssue;

/** More would only repeat the first mistake. */
const SHOWN = 10;
/** A name is told back only as far as anybody reads it. */
const NAME_MAX = 80;

/** What a schema found wrong, as a 422 problem naming each place the way the sender wrote it ("plant.line[2].kind"). */
export function schemaProblem(target: string, issues: readonly Issue[]): Problem {
  const errors = issues.slice(0, SHOWN).map((issue) => ({
    where: `${target === 'json' ? '' : `${target} `}${placeOf(issue)}`,
    message: wordsOf(issue),
  }));
  const first = errors[0] ?? { where: '', message: 'not understood' };
  const detail = first.where ? `${first.where}: ${first.message}` : first.message;
  return new Problem(422, detail, undefined, { where: first.where, errors });
}

function placeOf(issue: Issue): string {
  const unknown = issue.code === 'unrecognized_keys' ? issue.keys.slice(0, 1) : [];
  const steps = [...issue.path, ...unknown].map((step) =>
    typeof step === 'number' ? step : String(step).slice(0, NAME_MAX),
  );
  return steps.length === 0 ? '' : joinPlace('', steps);
}

function wordsOf(issue: Issue): string {
  // the schema knows what stands beside it, and says so itself
  if (issue.code === 'unrecognized_keys' || issue.code === 'custom') return issue.message;
  if (issue.code !== 'invalid_type') return messageOf(issue);
  const wanted = nameOf(issue.expected);
  return issue.message.endsWith('received undefined')
    ? `is missing: give ${wanted} here`
    : `must be ${wanted}`;
}
