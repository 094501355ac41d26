import { z } from 'zod';
import type { Fault } from '../common/errors.ts';
import { SMALLEST } from '../common/figures.ts';
import { nearest, suggestion } from '../ruleset/nearest.ts';
import { media, partKinds, partSchema } from './parts.ts';

type Issue = z.core.$ZodIssue;

/** The place of a schema issue as the reader wrote it: `plant.line[3].clean.flowLpm`; an unknown field is named itself. */
export function placeOf(where: string, issue: Issue): string {
  const path =
    issue.code === 'unrecognized_keys' ? [...issue.path, issue.keys[0] ?? ''] : issue.path;
  return joinPlace(where, path);
}

/** Joins a place and the path below it: numbers in brackets, names after a dot. */
export function joinPlace(where: string, path: readonly PropertyKey[]): string {
  let place = where;
  for (const step of path) {
    if (typeof step === 'number') place += `[${step}]`;
    else place += place === '' ? String(step) : `.${String(step)}`;
  }
  return place === '' ? 'plant' : place;
}

/** One sentence that says what is wrong and what would be right. */
export function messageOf(issue: Issue): string {
  switch (issue.code) {
    case 'unrecognized_keys':
      return unknownField(issue.keys[0] ?? '');
    case 'invalid_union':
      return issue.path.at(-1) === 'kind'
        ? unknownKind(issue.input, kindsFor(issue.path))
        : 'this value is not one of those allowed here';
    case 'invalid_type':
      return wrongType(issue.expected, issue.input);
    case 'too_small':
      if (issue.minimum === SMALLEST) return 'must be more than 0';
      if (issue.origin === 'array') return tooFew(Number(issue.minimum), issue.path);
      if (issue.origin === 'string' && issue.minimum === 1) return 'must not be empty';
      return `must be ${issue.inclusive ? 'at least' : 'more than'} ${issue.minimum}${countOf(issue.origin)}`;
    case 'too_big':
      return `must be ${issue.inclusive ? 'at most' : 'less than'} ${issue.maximum}${countOf(issue.origin)}`;
    case 'invalid_value':
      return `must be one of ${issue.values.map(String).join(', ')}`;
    case 'invalid_format':
      return formats[issue.format] ?? issue.message;
    default:
      return issue.message;
  }
}

/** The same for a person at a form: what can be typed, left empty or not chosen there. */
export function faultOf(issue: Issue): Fault | undefined {
  // of pressures the person's own unit is told
  const isPressure = /bar$/i.test(String(issue.path.at(-1)));
  const figure = (value: number | bigint) => (isPressure ? { bar: Number(value) } : Number(value));
  switch (issue.code) {
    case 'too_big':
      if (issue.maximum === 0) return { id: 'above-vacuum' };
      return { id: 'at-most', holes: { most: figure(issue.maximum) } };
    case 'too_small':
      if (issue.origin === 'array') return { id: 'none-named' };
      if (issue.origin === 'string') return { id: 'missing' };
      if (issue.minimum === SMALLEST || !issue.inclusive) return { id: 'above-zero' };
      return { id: 'at-least', holes: { least: figure(issue.minimum) } };
    case 'invalid_type':
      if (issue.input === undefined) return { id: 'missing' };
      if (issue.expected === 'int') return { id: 'whole-number' };
      return issue.expected === 'number' ? { id: 'a-number' } : undefined;
    case 'invalid_format':
      return issue.format === 'date' ? { id: 'a-day' } : undefined;
    default:
      return undefined;
  }
}

/** What texts of a form look like. */
const formats: Readonly<Record<string, string>> = {
  date: 'must be a calendar day like 2026-11-25',
  email: 'must be an e-mail address like mira@example.org',
  uuid: 'must be a UUID like 3f8e1b0a-6c1d-4f7e-9a55-0d2b8c7e4a91',
};

function tooFew(least: number, path: readonly PropertyKey[]): string {
  const mend =
    path.at(-1) === 'line'
      ? 'list the parts in their order from the tank to the house, each like { "id": "tank", "kind": "tank" }'
      : 'fill it, or leave the field out if it may be left out';
  return `must have at least ${least} ${least === 1 ? 'entry' : 'entries'}: ${mend}`;
}

/** Every field name of a plant's parts and of what stands in them. */
const fieldNames = namesIn(partSchema);

function namesIn(schema: unknown): readonly string[] {
  if (schema instanceof z.ZodOptional) return namesIn(schema.unwrap());
  if (schema instanceof z.ZodArray) return namesIn(schema.element);
  if (schema instanceof z.ZodUnion) return schema.options.flatMap(namesIn);
  if (!(schema instanceof z.ZodObject)) return [];
  return Object.entries(schema.shape).flatMap(([name, field]) => [name, ...namesIn(field)]);
}

function unknownField(name: string): string {
  // a field of another kind of part is no slip of the pen
  if (fieldNames.includes(name)) return `unknown field "${name}" here: leave it out`;
  return `unknown field "${name}": ${suggestion(name, fieldNames, 'leave it out or check its spelling')}`;
}

function unknownKind(input: unknown, kinds: readonly string[]): string {
  const { kind } = { kind: undefined, ...(input as { readonly kind?: unknown }) };
  if (media.some((medium) => medium === kind)) {
    return `unknown kind: write "kind": "filter", "medium": "${String(kind)}"`;
  }
  const meant = nearest(String(kind), kinds);
  return meant === undefined
    ? `unknown kind: use one of ${kinds.join(', ')}`
    : `unknown kind ${JSON.stringify(kind)}: did you mean "${meant}"?`;
}

function kindsFor(path: readonly PropertyKey[]): readonly string[] {
  return path.includes('control')
    ? ['pressure-switch', 'flow-controller', 'variable-speed', 'none']
    : partKinds;
}

function countOf(origin: string): string {
  if (origin === 'array') return ' entries';
  return origin === 'string' ? ' characters' : '';
}

function wrongType(expected: string, input: unknown): string {
  if (typeof input === 'number' && !Number.isFinite(input)) {
    return 'must be an ordinary number, not NaN or infinite: leave the field out if it is not known';
  }
  if (input === undefined) return `is missing: give ${nameOf(expected)} here`;
  return `must be ${nameOf(expected)}`;
}

export function nameOf(expected: string): string {
  const names: Record<string, string> = {
    number: 'a number',
    string: 'a text',
    boolean: 'true or false',
    array: 'a list',
    object: 'an object with fields',
    int: 'a whole number',
  };
  return names[expected] ?? 'a value';
}
