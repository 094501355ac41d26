import { existsSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { createInterface, type Interface } from 'node:readline';
import { InputError } from '../../shared/common/errors.ts';
import { reasonOf } from '../files/reason.ts';
import type { Io } from './io.ts';
import { nameOf } from './json-file.ts';

/** The world of one command line, as far as commands touch it. Tests hand in their own. */
export interface World extends Io {
  /** whether a person sits at a terminal on both ends */
  readonly interactive: boolean;
  /** lines typed or piped in, one after the other; null at the end */
  nextLine(): Promise<string | null>;
  /** Nothing more is read: a terminal that is still listened to would keep the process from ending. */
  close(): void;
  exists(path: string): boolean;
  /** Replaces a file as a whole, so that a power cut leaves the old or the new one, never half. */
  writeText(path: string, text: string): void;
  now(): Date;
}

/** The world of this process. */
export function processWorld(): World {
  let typed: Interface | undefined;
  let lines: AsyncIterator<string> | undefined;
  // Whoever read the output has had enough (`| head`): no reason to complain.
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code === 'EPIPE') process.exit(0);
    throw error;
  });
  return {
    interactive: Boolean(process.stdin.isTTY && process.stdout.isTTY),
    readText: async (path) => (path === '-' ? readStdin() : readFile(path)),
    out: (text) => void process.stdout.write(text),
    err: (text) => void process.stderr.write(text),
    nextLine: async () => {
      typed ??= listening();
      lines ??= typed[Symbol.asyncIterator]();
      const { done, value } = await lines.next();
      return done ? null : value;
    },
    close: () => typed?.close(),
    exists: existsSync,
    writeText: (path, text) => {
      try {
        writeFileSync(`${path}.part`, text);
        renameSync(`${path}.part`, path);
      } catch (error) {
        rmSync(`${path}.part`, { force: true });
        throw new InputError(path, `cannot be written: ${reasonOf(error)}`);
      }
    },
    now: () => new Date(),
  };
}

/** Lines typed. Ctrl-C ends them as Ctrl-D does, so that what was told can still be kept; a second one ends at once. */
function listening(): Interface {
  const typed = createInterface({ input: process.stdin });
  process.once('SIGINT', () => typed.close());
  return typed;
}

function readFile(path: string): string {
  try {
    return readFileSync(path, 'utf8');
  } catch (error) {
    throw new InputError(path, `cannot be read: ${reasonOf(error)}`);
  }
}

async function readStdin(): Promise<string> {
  const chunks: Buffer[] = [];
  try {
    for await (const chunk of process.stdin) chunks.push(chunk as Buffer);
  } catch (error) {
    throw new InputError(nameOf('-'), `cannot be read: ${reasonOf(error)}`);
  }
  return Buffer.concat(chunks).toString('utf8');
}
