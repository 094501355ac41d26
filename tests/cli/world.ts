import { InputError } from '../../shared/common/errors.ts';
import { main } from '../../src/cli/main.ts';
import type { World } from '../../src/cli/world.ts';
import { latestRuleSet } from '../../src/rules/read.ts';

const rules = latestRuleSet();

/** A command line without a machine: files in memory, lines typed beforehand, a clock that stands. */
export interface Tried {
  readonly code: number;
  readonly out: string;
  readonly err: string;
  readonly files: Readonly<Record<string, string>>;
}

export async function tried(
  args: readonly string[],
  given: {
    readonly files?: Readonly<Record<string, string>>;
    /** what is typed, line for line, or a person who looks at the screen before typing */
    readonly lines?: readonly string[] | ((screen: string) => string | null);
    readonly stdin?: string;
  } = {},
): Promise<Tried> {
  const files: Record<string, string> = { ...given.files };
  const { lines = [] } = given;
  const typed = typeof lines === 'function' ? null : [...lines];
  const out: string[] = [];
  const err: string[] = [];
  const world: World = {
    interactive: false,
    readText: async (path) => {
      const text = path === '-' ? given.stdin : files[path];
      if (text === undefined) throw new InputError(path, 'cannot be read: there is no such file');
      return text;
    },
    out: (text) => void out.push(text),
    err: (text) => void err.push(text),
    nextLine: async () =>
      typeof lines === 'function' ? lines(out.join('')) : (typed?.shift() ?? null),
    close: () => {},
    exists: (path) => path in files,
    writeText: (path, text) => {
      files[path] = text;
    },
    now: () => new Date(2026, 10, 25, 9, 30),
  };
  const code = await main(args, world, () => rules);
  return { code, out: out.join(''), err: err.join(''), files };
}
