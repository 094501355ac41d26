import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { tried } from '../cli/world.ts';

const readme = readFileSync('README.md', 'utf8');
const session = /```\n(\$ gaugewalk [\s\S]*?)```/.exec(readme)?.[1] ?? '';
/** Figures move with the rule set; words and their order are what the README promises. */
const words = (line: string) => line.replaceAll(/\d+(\.\d+)?/g, '#').trim();

/** The plant of the session: what its gauges show, taps shut or open. */
const gauges: Readonly<Record<string, string>> = { G1: '3.0', G2: '0.5', G3: '0.4' };

describe('the README', () => {
  it('shows a session that runs like that, word for word and in that order', async () => {
    const [command = '', ...lines] = session.split('\n');
    const answers = lines.filter((line) => line.startsWith('> ')).map((line) => line.slice(2));
    const answerTo: readonly (readonly [RegExp, string])[] = [
      [/do you see, smell or feel/, answers[0] ?? ''],
      [/use the water\?/, 'none'],
      [/What is wrong\?/, answers[1] ?? ''],
      [/How did it begin\?/, answers[2] ?? ''],
      [/go near the pump/, answers[3] ?? ''],
      [/wait two minutes/, 'stays off'],
      [/smell of\?/, 'nothing'],
      [/running at this moment/, 'yes'],
    ];
    const person = (screen: string) => {
      const asked = screen.slice(screen.lastIndexOf('\n> '));
      if (asked.includes('Enter to end')) return null;
      const gauge = /What does (G\d) show/.exec(asked)?.[1];
      if (gauge) {
        const open =
          screen.lastIndexOf('one ordinary tap') > screen.lastIndexOf('until any pump stops');
        const two = screen.includes('ordinary taps: 2');
        return two ? 'u' : open ? (gauges[gauge] ?? 'u') : '3.4';
      }
      return answerTo.find(([question]) => question.test(asked))?.[1] ?? 'u';
    };
    const { out } = await tried(command.split(' ').slice(2), { lines: person });
    const shown = out.split('\n').map(words);
    let at = 0;
    for (const line of lines.map(words)) {
      if (line === '' || line === '…') continue;
      const found = shown.indexOf(line, at);
      expect(found, `in the README, but not in the session: ${line}`).toBeGreaterThanOrEqual(at);
      at = found + 1;
    }
    expect(answers.length).toBeGreaterThan(3);
  });

  it.each(['README.md', 'DEVELOPERS.md'])('%s links to files that are there', (file) => {
    const links = [...readFileSync(file, 'utf8').matchAll(/\]\(([^)#:]+)\)/g)].map(([, to]) => to);
    expect(links.filter((link) => !existsSync(link ?? ''))).toEqual([]);
    expect(links.length).toBeGreaterThan(0);
  });

  it('or DEVELOPERS.md leads to every page of the docs', () => {
    const leading = readme + readFileSync('DEVELOPERS.md', 'utf8');
    const pages = readdirSync('docs').filter((name) => name.endsWith('.md'));
    expect(pages.length).toBeGreaterThan(5);
    expect(pages.filter((page) => !leading.includes(`docs/${page}`))).toEqual([]);
  });

  it('lists every command that --help lists for a case or a plant', async () => {
    for (const command of [
      'ask',
      'diagnose',
      'work',
      'due',
      'round',
      'line',
      'chlorine',
      'serve',
    ]) {
      expect(readme).toContain(`\`gaugewalk ${command}`);
    }
  });
});
