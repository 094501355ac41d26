import { type ChildProcess, spawn } from 'node:child_process';
import { rmSync } from 'node:fs';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';
import type { StoreOptions } from '../../src/store/store.ts';

export interface ServerProcess {
  readonly url: string;
  readonly process: ChildProcess;
  /** Ends it with a signal and waits; resolves to the exit code, null after a kill. */
  end(signal: NodeJS.Signals): Promise<number | null>;
  readonly logged: () => string;
}

/** Bundles the server with the tests' diagnosis into one file that plain Node runs. Returns its path and the way to remove it. */
export async function buildServer(): Promise<{ file: string; remove: () => void }> {
  const outDir = fileURLToPath(
    new URL(
      `../../node_modules/.cache/gaugewalk-test-${process.pid}-${Date.now()}`,
      import.meta.url,
    ),
  );
  await build({
    configFile: false,
    logLevel: 'silent',
    build: {
      ssr: fileURLToPath(new URL('process.ts', import.meta.url)),
      outDir,
      target: 'node20',
      emptyOutDir: true,
      rollupOptions: { output: { entryFileNames: 'server.mjs' } },
    },
  });
  return {
    file: `${outDir}/server.mjs`,
    remove: () => rmSync(outDir, { recursive: true, force: true }),
  };
}

export async function spawnServer(
  file: string,
  place: StoreOptions,
  port = 0,
): Promise<ServerProcess> {
  const child = spawn(process.execPath, [file], {
    stdio: ['ignore', 'pipe', 'pipe'],
    env: {
      PATH: process.env.PATH,
      PORT: String(port),
      DATA_DIR: place.dataDir,
      DATABASE_URL: place.databaseUrl ?? '',
      CASE_LIMIT: '1000000',
      LOG_LEVEL: 'warn',
    },
  });
  let errors = '';
  child.stderr.on('data', (chunk) => {
    errors += String(chunk);
  });
  const ended = new Promise<number | null>((resolve) => child.once('exit', resolve));
  const url = await new Promise<string>((resolve, reject) => {
    createInterface({ input: child.stdout }).once('line', resolve);
    void ended.then((code) => reject(new Error(`the server ended with ${code}: ${errors}`)));
  });
  return {
    url,
    process: child,
    logged: () => errors,
    end(signal) {
      child.kill(signal);
      return ended;
    },
  };
}
