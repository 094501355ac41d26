import type { z } from 'zod';
import { cause, change } from './cause.ts';
import type { Finding } from './finding.ts';
import { nearest, suggestion } from './nearest.ts';
import { caution, condition, danger, head, job, question } from './schema.ts';
import type { Source } from './source.ts';

/** Every field name a table may hold, for guessing what a mistyped one was meant to be. */
const fieldNames = [cause, change, condition, question, job, caution, danger, head].flatMap(
  (schema) => Object.keys(schema.shape),
);

/** Checks one value of a source against its schema; what is wrong comes back as findings with their lines. */
export function fit<T>(
  schema: z.ZodType<T>,
  source: Source,
  path: readonly PropertyKey[],
): { readonly value?: T; readonly findings: readonly Finding[] } {
  const input = valueAt(source.value, path);
  const result = schema.safeParse(input);
  if (result.success) return { value: result.data, findings: [] };
  const { issues } = result.error;
  return {
    findings: issues
      .filter((issue) => !isMistyped(issue, issues, input))
      .flatMap((issue) => findingsOf(issue, source, path, input)),
  };
}

/** A field missing beside one whose name is nearly the same is one slip, told once at the mistyped name. */
function isMistyped(
  issue: z.core.$ZodIssue,
  issues: readonly z.core.$ZodIssue[],
  input: unknown,
): boolean {
  if (valueAt(input, issue.path) !== undefined) return false;
  const missing = String(issue.path.at(-1));
  const parent = issue.path.slice(0, -1).join();
  return issues.some(
    (other) =>
      other.code === 'unrecognized_keys' &&
      other.path.join() === parent &&
      other.keys.some((key) => nearest(key, [missing]) !== undefined),
  );
}

function findingsOf(
  issue: z.core.$ZodIssue,
  source: Source,
  path: readonly PropertyKey[],
  input: unknown,
): Finding[] {
  const full = [...path, ...issue.path];
  const name = full.map(String).join(' › ');
  const found = (line: number, message: string, mend: string): Finding => ({
    file: source.file,
    line,
    message,
    mend,
  });
  if (issue.code === 'unrecognized_keys') {
    return issue.keys.map((key) =>
      found(
        source.lineOf([...full, key]),
        `${name}: there is no field "${key}"`,
        suggestion(key, fieldNames, 'take it out, or see docs/rules.md for the fields there are'),
      ),
    );
  }
  const given = valueAt(input, issue.path);
  if (given === undefined) {
    return [
      found(source.lineOf(full), `${name} is missing`, 'write it; docs/rules.md has an example'),
    ];
  }
  if (issue.code === 'invalid_value') {
    const known = issue.values.map(String);
    return [
      found(
        source.lineOf(full),
        `${name}: ${JSON.stringify(given)} is not known here`,
        suggestion(String(given), known, `use one of ${known.join(', ')}`),
      ),
    ];
  }
  if (issue.code === 'invalid_key') {
    const mend = 'use small letters, digits and hyphens';
    return [found(source.lineOf(full), `${name} is no id`, mend)];
  }
  const [says, mend] = plainly(issue, given) ?? [issue.message, 'docs/rules.md has an example'];
  return [found(source.lineOf(full), `${name}: ${says}`, mend)];
}

/** What a value is to be, and how it is written. */
const shapes: Readonly<Record<string, readonly [string, string]>> = {
  number: ['number', 'write digits, with a point: 0.7'],
  string: ['text', 'put it in quotes'],
  boolean: ['yes or no', 'write true or false'],
  array: ['list', 'put it in [ ], or each on a line that begins with a dash'],
  object: ['set of fields', 'write its fields below it, further in'],
  record: ['set of fields', 'write its fields below it, further in'],
};

/** The message and the way out in the words of somebody who edits a table. */
function plainly(issue: z.core.$ZodIssue, given: unknown): readonly [string, string] | null {
  const shown = JSON.stringify(given);
  if (issue.code === 'invalid_type') {
    const [shape, mend] = shapes[issue.expected] ?? [];
    return shape && mend ? [`${shown} is no ${shape}`, mend] : null;
  }
  const isNumber = typeof given === 'number';
  if (issue.code === 'too_small' && isNumber) {
    const least = `${issue.inclusive ? 'at least ' : 'more than '}${issue.minimum}`;
    return [`${shown} is too little`, `${least} fits`];
  }
  if (issue.code === 'too_big' && isNumber) {
    const most = `${issue.inclusive ? 'at most ' : 'less than '}${issue.maximum}`;
    return [`${shown} is too much`, `${most} fits`];
  }
  return null;
}

function valueAt(value: unknown, path: readonly PropertyKey[]): unknown {
  let here = value;
  for (const step of path) {
    if (typeof here !== 'object' || here === null) return undefined;
    here = (here as Record<PropertyKey, unknown>)[step];
  }
  return here;
}
