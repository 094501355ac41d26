import { once } from 'node:events';
import { createReadStream, createWriteStream, existsSync } from 'node:fs';
import { rm } from 'node:fs/promises';
import { createInterface } from 'node:readline';
import type { Readable } from 'node:stream';
import { finished } from 'node:stream/promises';
import { InputError } from '../../shared/common/errors.ts';
import { exportStore, importStore } from '../store/transfer.ts';
import type { Io, Say } from './io.ts';
import { type Environment, withStore } from './with-store.ts';

/** Runs `gaugewalk export FILE`. The file is for its owner's eyes only; one that is there already is not written over. */
export async function runExport(
  io: Io,
  say: Say,
  file: string,
  environment: Environment,
): Promise<void> {
  if (existsSync(file)) throw new InputError(file, 'is there already; choose another name');
  await withStore(environment, async (store) => {
    const out = createWriteStream(file, { mode: 0o600, flags: 'wx', flush: true });
    const opened = once(out, 'open').catch((error: unknown) => {
      throw new InputError(file, `cannot be written: ${codeOf(error)}`);
    });
    await opened;
    try {
      const rows = await exportStore(store, async (line) => {
        if (!out.write(line)) await once(out, 'drain');
      });
      out.end();
      await finished(out);
      io.out(`${say('exported', { rows, file })}\n`);
    } catch (error) {
      out.destroy();
      await rm(file, { force: true }); // half an export must not look like one
      throw error;
    }
  });
}

/** Runs `gaugewalk import FILE`. */
export async function runImport(
  io: Io,
  say: Say,
  file: string,
  environment: Environment,
): Promise<void> {
  const input = createReadStream(file, 'utf8');
  await once(input, 'open').catch((error: unknown) => {
    throw new InputError(file, `cannot be read: ${codeOf(error)}`);
  });
  await withStore(environment, async (store) => {
    const rows = await importStore(store, linesOf(input), file);
    io.out(`${say('imported', { rows, file })}\n`);
  }).finally(() => input.destroy());
}

/** Begins to read only when the first line is asked for: lines read before that would be lost. */
async function* linesOf(input: Readable): AsyncGenerator<string> {
  yield* createInterface({ input, crlfDelay: Number.POSITIVE_INFINITY });
}

const codeOf = (error: unknown): string =>
  error instanceof Error && 'code' in error ? String(error.code) : 'unknown reason';
