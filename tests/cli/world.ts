import { InputError } from '../../shared/common/errors.ts';
import { main } from '../../src/cli/main.ts';
import type { World } from '../../src/cli/world.ts';
import { latestRuleSet } from '../../src/rules/read.ts';

const rules = latestRuleSet();

/** A command line without a machine: files in memory, lines typed beforehand, a clock that stands but for waits told. */
export interface Tried {
  readonly code: number;
  readonly out: string;
  readonly err: string;
  readonly files: Readonly<Record<string, string>>;
}

/** When the clock of every command line here begins. */
export const START = new Date(2026, 10, 25, 9, 30);

/** Whoever is told that a step is not done before a time waits for it; null where nothing is told. */
function waitedOut(screen: string): Date | null {
  const told = [...screen.matchAll(/Not done before (\S+) (\d\d:\d\d)\./g)].at(-1);
  return told ? new Date(`${told[1]}T${told[2]}`) : null;
}

export async function tried(
  args: readonly string[],
  given: {
    readonly files?: Readonly<Record<string, string>>;
    /** what is typed, line for line, or a person who looks at the screen before typing */
    readonly lines?: readonly string[] | ((screen: string) => string | null);
    readonly stdin?: string;
    /** a person at a terminal */
    readonly interactive?: true;
    /** waits for nothing that is told */
    readonly hasty?: true;
  } = {},
): Promise<Tried> {
  const files: Record<string, string> = { ...given.files };
  const { lines = [] } = given;
  const typed = typeof lines === 'function' ? null : [...lines];
  const out: string[] = [];
  const err: string[] = [];
  let now = START;
  const world: World = {
    interactive: given.interactive ?? false,
    readText: async (path) => {
      const text = path === '-' ? given.stdin : files[path];
      if (text === undefined) throw new InputError(path, 'cannot be read: there is no such file');
      return text;
    },
    out: (text) => void out.push(text),
    err: (text) => void err.push(text),
    nextLine: async () => {
      if (!given.hasty) now = waitedOut(out.join('')) ?? now;
      return typeof lines === 'function' ? lines(out.join('')) : (typed?.shift() ?? null);
    },
    close: () => {},
    exists: (path) => path in files,
    writeText: (path, text) => {
      files[path] = text;
    },
    now: () => now,
  };
  const code = await main(args, world, () => rules);
  return { code, out: out.join(''), err: err.join(''), files };
}
