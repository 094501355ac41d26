import { Problem } from './problem.ts';

/** Deeper than anything the contract holds; keeps recursive checks from running out of stack. */
const MAX_DEPTH = 32;

/**
 * Parses a JSON body and refuses what the rest of the server must never meet: values nested too deep and numbers that
 * JSON can write but a computer cannot hold (1e999). Throws a 400 problem.
 */
export function parseJsonBody(text: string): unknown {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    throw new Problem(
      400,
      'The body is not JSON. Send one object, names and texts in double quotes.',
    );
  }
  const open: { value: unknown; depth: number }[] = [{ value, depth: 0 }];
  for (let next = open.pop(); next; next = open.pop()) {
    if (typeof next.value === 'number' && !Number.isFinite(next.value)) {
      throw new Problem(400, 'The body holds a number too large to be one.');
    }
    if (typeof next.value !== 'object' || next.value === null) continue;
    if (next.depth === MAX_DEPTH)
      throw new Problem(400, `The body is nested more than ${MAX_DEPTH} deep.`);
    for (const child of Object.values(next.value))
      open.push({ value: child, depth: next.depth + 1 });
  }
  return value;
}
