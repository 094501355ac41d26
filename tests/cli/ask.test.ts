import { describe, expect, it } from 'vitest';
import type { Case } from '../../shared/diagnosis/diagnose.ts';
import { fernhollow } from '../../shared/plant/ready-made.ts';
import { tried } from './world.ts';

const ours = { 'plant.json': JSON.stringify(fernhollow) };

/**
 * Answers an interview as somebody would who stands at the plant: by what the last question says, not by its place.
 * A question that no line fits is answered with "u". A function reads its answer off the plant, as often as asked.
 */
async function interview(
  args: readonly string[],
  answers: readonly (readonly [RegExp, ...(string | ((screen: string) => string))[]])[],
  files: Readonly<Record<string, string>> = ours,
) {
  const left = answers.map(([asked, ...lines]) => ({ asked, lines: [...lines] }));
  let typed = 0;
  const person = (screen: string): string | null => {
    typed += 1;
    if (typed > 60) throw new Error(`does not end:\n${screen.slice(-2000)}`);
    const asked = screen.slice(screen.lastIndexOf('\n> '));
    if (asked.includes('Enter to end')) return '';
    const fit = left.find((one) => one.lines.length > 0 && one.asked.test(asked));
    const line = fit?.lines[0] ?? 'u';
    if (typeof line === 'function') return line(screen);
    fit?.lines.shift();
    return line;
  };
  return tried(args, { files, lines: person });
}

const saved = (files: Readonly<Record<string, string>>, name: string) =>
  JSON.parse(files[name] ?? '{}') as Case;
const given = ({ answers }: Case, question: string) =>
  answers.filter((one) => one.question === question).map(({ value }) => value);

/** The plant with blocked sediment cartridges: what each gauge shows, taps shut or open. */
function gaugeInPsi(screen: string): string {
  const open =
    screen.lastIndexOf('one ordinary tap') > screen.lastIndexOf('Shut all taps and machines, wait');
  const gauge = /What does (G\d) show\?/g;
  const asked = [...screen.matchAll(gauge)].at(-1)?.[1] ?? '';
  return open ? ({ G1: '45', G2: '7', G3: '6', G4: '6' }[asked] ?? 'u') : '49';
}

it('takes all gauges told in one line, in their order, and shows what it took', async () => {
  const { files, out } = await interview(
    ['ask', 'plant.json', '--case', 'ours.json', '--pressure', 'psi'],
    [
      [/What is wrong/, 'the shower is weak'],
      [/What does G1 show/, '49 49, 49;49', '45 7'],
      [/What does G2 show/, '7 6 6'],
    ],
  );
  const [closed] = given(saved(files, 'ours.json'), 'readings');
  expect(closed).toMatchObject({ taps: 'closed', bar: { G1: 3.3784, G4: 3.3784 } });
  expect(out).toContain('What does G4 show? 49 psi');
  // the unit was chosen here, and need not be chosen again
  expect(out).toContain('\ngaugewalk work ours.json --pressure psi');
  // two figures for four gauges are not guessed at
  expect(out).toContain('That was not understood. In psi');
});

describe('whoever leaves in the middle', () => {
  const files = { 'plant.json': JSON.stringify(fernhollow) };
  const lines = ['none', 'none', 'weak'];

  it('at a terminal finds the answers in a file, and is told how to go on', async () => {
    const left = await tried(['ask', 'plant.json'], { files, lines, interactive: true });
    expect(given(saved(left.files, 'gaugewalk-case.json'), 'complaint')).toEqual([['weak']]);
    expect(left.out).toContain('To go on: gaugewalk ask --case gaugewalk-case.json');
  });

  it('overwrites no case kept before', async () => {
    const there = { ...files, 'gaugewalk-case.json': '{}' };
    const left = await tried(['ask', 'plant.json'], { files: there, lines, interactive: true });
    expect(left.files['gaugewalk-case.json']).toBe('{}');
    expect(given(saved(left.files, 'gaugewalk-case-2.json'), 'complaint')).toEqual([['weak']]);
  });

  it('leaves no file before anything was told, nor behind a pipe', async () => {
    const none = await tried(['ask', 'plant.json'], { files, lines: [], interactive: true });
    const piped = await tried(['ask', 'plant.json'], { files, lines });
    for (const left of [none, piped]) expect(Object.keys(left.files)).toEqual(['plant.json']);
  });
});

describe('a whole interview through a pipe', () => {
  it('a householder in psi: weak water, gauges read, ends with the cartridge to change', async () => {
    const { code, out, files } = await interview(
      ['ask', 'plant.json', '--case', 'ours.json'],
      [
        [/do you see, smell or feel any/, 'none'],
        [/use the water/, 'none'],
        [/What is wrong/, 'the shower is weak'],
        [/How did it begin/, 'it got worse bit by bit'],
        [/near the pump/, 'clicks on and off, every few seconds', '5'],
        [/wait two minutes/, 'stays off'],
        [/smell of/, 'nothing'],
        [/taste of/, 'fine'],
        [/What do you see/, 'clear'],
        [/How full/, 'nearly full'],
        [/In which unit do your gauges/, 'psi'],
        [/G\d show/, gaugeInPsi],
        [/running at this moment/, () => 'yes'],
      ],
    );
    expect(code).toBe(0);
    expect(out).toContain('1. blocked sediment cartridge: ');
    expect(out).toContain('Change the sediment cartridge');
    expect(out).toMatch(/psi lost/);
    const theCase = saved(files, 'ours.json');
    expect(given(theCase, 'complaint')).toEqual([['weak']]);
    expect(given(theCase, 'onset')).toEqual(['gradual']);
    const readings = given(theCase, 'readings') as { taps: unknown; bar: { G1: number } }[];
    expect(readings[0]?.taps).toBe('closed');
    const open = readings.find(({ taps }) => typeof taps === 'object');
    expect(open).toMatchObject({ taps: { open: 1 }, pump: 'on' });
    // 45 psi is 3.103 bar (NIST SP 811: 1 psi = 6894.757 Pa)
    expect(open?.bar.G1).toBeCloseTo(3.103, 3);
    expect(theCase.answers.every(({ at }) => at?.startsWith('2026-11-25T09:30:00'))).toBe(true);
  }, 120_000);

  it('an agent on the telephone who knows nothing still gets to an end and a decision', async () => {
    const { code, out } = await interview(
      ['ask', 'controller-two-stages-uv', '--for', 'agent'],
      [],
    );
    expect(code).toBe(0);
    expect(out).toContain('Phone or visit');
    expect(out).not.toContain('was not understood');
  }, 120_000);

  it('a danger sign typed in the middle stops it, says whom to call and asks nothing more', async () => {
    const { code, out, files } = await tried(['ask', 'two-stages', '--case', 'c.json'], {
      lines: ['none', 'none', 'weak', 'wet socket', ''],
    });
    expect(code).toBe(0);
    expect(out).toMatch(/Stop here\n {2}Do not touch anything electric that is wet/);
    expect(out.indexOf('Enter to end')).toBeGreaterThan(out.indexOf('Stop here'));
    expect(given(saved(files, 'c.json'), 'danger')).toEqual([[], ['wet-electrics']]);
  });

  it('a stop that was a slip can be taken back', async () => {
    const { out } = await tried(['ask', 'two-stages'], { lines: ['shock', '<', 'none'] });
    expect(out).toContain('Stop here');
    expect(out.slice(out.indexOf('Stop here'))).toContain('use the water');
  });

  it('danger not known is asked once more in other words, and then no more', async () => {
    const { out } = await tried(['ask', 'two-stages'], { lines: ['u', 'u'] });
    expect(out.match(/Just to be sure/g)).toHaveLength(1);
    expect(out.slice(out.lastIndexOf('> u'))).toContain('use the water');
  });

  it('goes back step by step, keeps or changes, and takes up the thread again', async () => {
    const { out, files } = await tried(['ask', 'two-stages', '--case', 'c.json'], {
      lines: ['none', 'baby', 'weak', '<', '<', 'k', '<', 'smell', 'c', '2', 'none'],
    });
    const theCase = saved(files, 'c.json');
    expect(given(theCase, 'household')).toEqual([['infant'], []]);
    expect(given(theCase, 'complaint')).toEqual([['weak'], ['smell']]);
    expect(out).toContain('So far: Who drinks the water: A baby or small child. k keeps it.');
  });

  it('saves, and goes on from the file with the same next question', async () => {
    const first = await tried(['ask', 'two-stages'], { lines: ['none', 'none', 's', 'mine.json'] });
    expect(first.out).toContain('Saved in mine.json');
    const again = await tried(['ask', '--case', 'mine.json'], { files: first.files });
    expect(again.out).toContain('Going on from mine.json, answered so far: 2');
    expect(again.out).toMatch(/changes an\s+answer\.\n\nWhat is wrong/);
  });

  it('does not write over a file that is there unless told twice', async () => {
    const files = { 'mine.json': 'precious' };
    const lines = ['s', 'mine.json', 'other.json'];
    const once = await tried(['ask', 'two-stages'], { files, lines });
    expect(once.files['mine.json']).toBe('precious');
    expect(once.files['other.json']).toContain('"answers"');
    const twice = await tried(['ask', 'two-stages'], {
      files,
      lines: ['s', 'mine.json', 'mine.json'],
    });
    expect(twice.files['mine.json']).toContain('"answers"');
  });

  it('tells why it asks, where to look and the result so far, and asks again', async () => {
    const { out } = await tried(['ask', 'two-stages'], {
      lines: ['none', 'none', 'smell', '?', 'r', 'h', 'purple'],
    });
    expect(out).toContain('The answer saves about');
    expect(out).toContain('What it may be');
    expect(out).toContain('A danger sign may be typed at any moment');
    expect(out).toContain('That was not understood');
  });

  it('refuses a reading that cannot be, says why, and asks for it again', async () => {
    const { out, files } = await interview(
      ['ask', 'plant.json', '--pressure', 'bar', '--case', 'c.json'],
      [
        [/What is wrong/, 'weak'],
        [/G\d show/, '-2', '3.4', '3.4', '3.4', '3.4', '3.4', '3.4', '3.4'],
      ],
    );
    expect(out).toContain('That cannot be. A gauge here reads zero or more.');
    expect(JSON.stringify(given(saved(files, 'c.json'), 'readings'))).not.toContain('-2');
  });

  it('says once and at once what is odd about a reading, while somebody stands at the gauge', async () => {
    const { out } = await interview(
      ['ask', 'plant.json', '--pressure', 'bar'],
      [
        [/What is wrong/, 'weak'],
        [/What does G1 show/, '3.4 34 3.4 3.4'],
      ],
    );
    const told = 'G2 was read at 34 bar, past the end of its scale';
    const [before = '', after = '', ...again] = out.split(told);
    expect(before).toContain('What does G4 show? 3.4 bar');
    expect(after.indexOf('\n> ')).toBeGreaterThan(0);
    // the second time is the result
    expect(again).toHaveLength(1);
    expect(after).toContain('What it may be');
  });

  it.each([
    ['kPa', '340 320 90'],
    ['psi', '49 46 13'],
    ['bar', '3.4 3.2 0.9'],
  ])('shows how several gauges are typed in %s', async (unit, figures) => {
    const { out } = await interview(
      ['ask', 'plant.json', '--pressure', unit],
      [[/What is wrong/, 'weak']],
    );
    expect(out.replaceAll(/\s+/g, ' ')).toContain(`taken in their order: ${figures}.`);
  });

  it('ends quietly when nobody is there, before any plant was chosen', async () => {
    const { code, out } = await tried(['ask']);
    expect(code).toBe(0);
    expect(out).toContain('Which plant looks most like yours');
  });

  it('refuses a plant beside a case that has its own', async () => {
    const files = { 'c.json': JSON.stringify({ plant: fernhollow, answers: [] }) };
    const { code, err } = await tried(['ask', 'two-stages', '--case', 'c.json'], { files });
    expect(code).toBe(2);
    expect(err).toContain('leave PLANT out');
  });
});
