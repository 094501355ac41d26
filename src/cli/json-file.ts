import { InputError } from '../../shared/common/errors.ts';
import type { Io } from './io.ts';
import { jsonFault } from './json-fault.ts';

/**
 * Reads a JSON file or standard input.
 * @throws InputError naming the file and, where it is not JSON, the line and column
 */
export async function readJson(io: Io, path: string): Promise<unknown> {
  const text = await io.readText(path);
  return parseJson(text, nameOf(path));
}

/** Parses JSON text; `where` is how messages name it, `firstLine` the line it begins at in its file. */
export function parseJson(text: string, where: string, firstLine = 1): unknown {
  // some editors put a byte order mark in front (RFC 8259, section 8.1 lets it be ignored)
  const bare = text.startsWith('\uFEFF') ? text.slice(1) : text;
  try {
    return JSON.parse(bare);
  } catch {
    const { line, column, message } = jsonFault(bare);
    const place = `line ${firstLine - 1 + line}, column ${column}`;
    throw new InputError(where, `is not JSON at ${place}: ${message}`);
  }
}

/** How messages name a file: `-` is standard input. */
export function nameOf(path: string): string {
  return path === '-' ? 'standard input' : path;
}
