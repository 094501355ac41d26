import { readdirSync, readFileSync } from 'node:fs';
import { CAC } from 'cac';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { tried } from '../cli/world.ts';

const pages = ['README.md', 'DEVELOPERS.md', 'SECURITY.md', 'CHANGELOG.md'].concat(
  readdirSync('docs')
    .filter((name) => name.endsWith('.md'))
    .map((name) => `docs/${name}`),
);

/** Code of a Markdown page: fenced and indented blocks, and what stands between backticks. */
function codeIn(text: string): string[] {
  const fenced = [...text.matchAll(/^```.*\n([\s\S]*?)^```/gm)].map(([, code = '']) => code);
  const rest = text.replaceAll(/^```.*\n[\s\S]*?^```/gm, '');
  const indented = [...rest.matchAll(/^ {4}.*$/gm)].map(([line]) => line);
  const inLine = [...rest.matchAll(/`([^`\n]+)`/g)].map(([, code = '']) => code);
  return [...fenced.map((code) => code.replaceAll('\\\n', ' ')), ...indented, ...inLine];
}

/** The words behind `gaugewalk` in a line of a shell, up to a pipe, a redirection or a remark. */
function wordsOf(line: string): string[] | null {
  const start = /(?:^|\$ |npx |bin\/)gaugewalk(?:\.js)? (.*)$/.exec(line.replaceAll('\\|', '|'));
  const typed = start?.[1]?.split(/ {2,}| [|<>#] | && /)[0] ?? '';
  // what may be left out is tried with it, and of several the first
  const whole = typed.replaceAll(/[[\]]/g, '').split(' | ')[0] ?? '';
  const words = whole.match(/"[^"]*"|\S+/g)?.map((word) => word.replaceAll('"', '')) ?? [];
  return words.length === 0 || words.includes('…') ? null : words;
}

const shownIn = pages.flatMap((page) =>
  codeIn(readFileSync(page, 'utf8'))
    .flatMap((code) => code.split('\n'))
    .map(wordsOf)
    .filter((words) => words !== null)
    .map((words) => ({ page, words, shown: words.join(' ') })),
);

/** Each once, under the page that shows it first. */
const commands = shownIn.filter(
  ({ shown }, i) => shownIn.findIndex((one) => one.shown === shown) === i,
);

describe('a command that the docs show', () => {
  afterEach(() => vi.restoreAllMocks());

  it.each(commands)('$page: gaugewalk $shown', async ({ words }) => {
    // everything but the running itself: command, options and arguments are checked as they are when typed
    const run = vi.spyOn(CAC.prototype, 'runMatchedCommand').mockImplementation(function (
      this: CAC,
    ) {
      // a name alone is a command spoken of, not one to type
      if (words.length > 1) this.matchedCommand?.checkRequiredArgs();
      this.matchedCommand?.checkOptionValue();
      return 0;
    });
    const { code, err } = await tried(words);
    expect([code, err]).toEqual([0, '']);
    const told = words.some((word) => ['--help', '--version'].includes(word));
    expect(run).toHaveBeenCalledTimes(told ? 0 : 1);
  });

  it('is looked for where it stands: blocks, indented lines and tables', () => {
    const shown = commands.map((one) => one.shown);
    expect(shown).toContain('ask two-stages --pressure bar');
    expect(shown).toContain('owner mira@example.org --name Mira');
    expect(shown).toContain('due FILE --json');
    expect(shown).toContain('rules draft 2027-03-01 --from 2026-12-01');
  });

  it('is refused when an option or a command of it is not there', async () => {
    expect((await tried(['owner', 'a@example.org', '--nmae', 'x'])).err).toContain('--name');
    expect((await tried(['servve'])).code).toBe(2);
  });
});
