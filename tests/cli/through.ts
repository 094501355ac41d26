import { spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const program = fileURLToPath(new URL('../../bin/gaugewalk.js', import.meta.url));

/** Makes a process believe that it was started at this moment, so that nothing falls due while the years pass. */
const clockFrom = (moment: string) =>
  `data:text/javascript,${encodeURIComponent(`
  const Real = Date;
  const ahead = Real.parse('${moment}') - Real.now();
  globalThis.Date = class extends Real {
    constructor(...given) {
      if (given.length === 0) super(Real.now() + ahead);
      else super(...given);
    }
    static now() { return Real.now() + ahead; }
  };
`)}`;

/**
 * Runs the built program (`npm run build`) as a process of its own, with lines through its standard input and files in a
 * folder of their own. `read` gives a file's text as the program left it.
 */
export async function through<T>(
  files: Readonly<Record<string, string>>,
  use: (
    run: (args: readonly string[], lines?: readonly string[]) => Promise<Ran>,
    read: (name: string) => string,
  ) => Promise<T>,
): Promise<T> {
  const folder = mkdtempSync(join(tmpdir(), 'gaugewalk-'));
  try {
    for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
    return await use(
      (args, lines = []) => run(folder, args, lines),
      (name) => readFileSync(join(folder, name), 'utf8'),
    );
  } finally {
    rmSync(folder, { recursive: true });
  }
}

export interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

function run(folder: string, args: readonly string[], lines: readonly string[]): Promise<Ran> {
  return new Promise((resolve, reject) => {
    const clock = ['--import', clockFrom('2026-11-25T09:30:00Z')];
    const child = spawn(process.execPath, [...clock, program, ...args], { cwd: folder });
    let out = '';
    let err = '';
    child.stdout.on('data', (chunk) => {
      out += chunk;
    });
    child.stderr.on('data', (chunk) => {
      err += chunk;
    });
    child.on('error', reject);
    child.on('close', (code) => resolve({ code, out, err }));
    // a program that ends early leaves its last lines unread
    child.stdin.on('error', () => {});
    child.stdin.end(lines.map((line) => `${line}\n`).join(''));
  });
}
