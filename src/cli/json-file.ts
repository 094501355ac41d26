import { InputError } from '../../shared/common/errors.ts';
import type { Io } from './io.ts';

/**
 * Reads a JSON file or standard input.
 * @throws InputError naming the file and, where it is not JSON, the place in it
 */
export async function readJson(io: Io, path: string): Promise<unknown> {
  const text = await io.readText(path);
  try {
    return JSON.parse(text);
  } catch (error) {
    throw new InputError(nameOf(path), `is not JSON: ${reasonOf(error)}`);
  }
}

/** How messages name a file: `-` is standard input. */
export function nameOf(path: string): string {
  return path === '-' ? 'standard input' : path;
}

function reasonOf(error: unknown): string {
  const message = error instanceof Error ? error.message : String(error);
  return message.replaceAll(/\s+/g, ' ');
}
