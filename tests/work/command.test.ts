import { describe, expect, it } from 'vitest';
import { fernhollow } from '../../shared/plant/fernhollow.ts';
import { tried } from '../cli/world.ts';
import { carefulLines, gaugesOf, inBar, today, worked } from './session.ts';

const theCase = { plant: fernhollow, answers: [], today };
const sediment = { job: 'change-sediment', part: 'sed-1' };
const options = ['--job', 'change-sediment', '--part', 'sed-1'];
const files = { 'case.json': JSON.stringify(theCase) };

describe('gaugewalk work', () => {
  it('is a command of the program: one line per answer, the caution before the step', async () => {
    const { code, out, err } = await tried(['work', 'case.json', '--job', 'change-lamp'], {
      files,
      lines: ['done', 'done', 'done'],
    });
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toContain('Local rules and licensed trades come first');
    const caution = out.indexOf('A pump can start by itself');
    expect(caution).toBeGreaterThan(0);
    expect(caution).toBeLessThan(out.indexOf('Switch the pump off.'));
    expect(out).toContain('The job is not finished.');
  });

  it.each([
    [['work', 'case.json', '--job', 'fly'], 'no job sheet "fly"'],
    [['work', 'case.json', '--job', 'change-lamp', '--part', 'sed-9'], 'no part "sed-9"'],
    [['work', 'case.json', '--job', 'change-lamp', '--part', 'sed-1'], 'no job for part "sed-1"'],
    [['work', 'case.json', '--for', 'child'], 'use one of householder, agent, technician'],
    [['work', 'none.json'], 'there is no such file'],
  ])('refuses %j in one line', async (args, message) => {
    const { code, err } = await tried(args, { files });
    expect(code).toBe(2);
    expect(err).toContain(message);
    expect(err.trim().split('\n')).toHaveLength(1);
  });

  it.each([
    ['its id', ['shock']],
    ['other words', ['i got a tingle at the tap', 'yes']],
    ['the command and a number', ['danger', '1']],
  ])(
    'stops at a danger sign said by %s at any step, says whom to call and leaves a record',
    async (_, said) => {
      const lines = [...carefulLines(theCase, sediment).slice(0, 4), ...said];
      const { out, records, after } = await worked(theCase, lines, options);
      expect(out.replaceAll(/\s+/g, ' ')).toContain('Call an electrician');
      expect(records).toMatchObject([{ ended: 'stopped', danger: ['shock'] }]);
      expect(after.answers).toMatchObject([{ question: 'danger', value: ['shock'] }]);
    },
  );

  it.each([
    ['test-precharge', [{ question: 'precharge', value: { bar: 1.8 } }]],
    ['test-shut-off', [{ question: 'shut-off', value: { bar: 1.8 } }]],
    [
      'test-pressure-hold',
      [
        { question: 'pressure-hold', value: { lostBar: 1.8, minutes: 10 } },
        { question: 'pressure-hold-isolated', value: { lostBar: 1.8, minutes: 10 } },
      ],
    ],
  ])('puts what a test showed into the case as the interview would: %s', async (job, answers) => {
    const { after } = await worked(theCase, carefulLines(theCase, { job }), ['--job', job]);
    const told = after.answers.map(({ question, value }) => ({ question, value }));
    expect(told).toEqual(expect.arrayContaining<unknown>(answers));
  });

  it('tells what was found before the work, and what was left after it', async () => {
    const job = 'set-precharge';
    const { after } = await worked(theCase, carefulLines(theCase, { job }), ['--job', job]);
    const told = after.answers.slice(0, 3).map(({ question, value }) => [question, value]);
    expect(told).toMatchObject([
      ['precharge', { bar: 0.4 }],
      ['work-done', { job }],
      ['precharge', { bar: 1.8 }],
    ]);
  });

  it('says when a wait is over, counted from the step before', async () => {
    const job = 'change-lamp';
    const { out } = await worked(theCase, carefulLines(theCase, { job }), ['--job', job]);
    // ten minutes for the lamp to cool
    expect(out.match(/Not done before .*/g)).toEqual(['Not done before 2026-11-25 09:40.']);
  });

  it('takes no step whose wait has not gone by, and says when it can be', async () => {
    const job = 'change-lamp';
    const lines = carefulLines(theCase, { job });
    const { out } = await tried(['work', 'case.json', '--job', job], { files, lines, hasty: true });
    expect(out).toContain('Too early: it is not done before 2026-11-25 09:40.');
    expect(out).not.toContain('Draw the lamp out');
    expect(out).toContain('The job is not finished.');
  });

  it('takes a danger sign in a note for one', async () => {
    const lines = carefulLines(theCase, sediment);
    const note = lines.indexOf('all well');
    const { records } = await worked(theCase, [...lines.slice(0, note), 'shock'], options);
    expect(records).toMatchObject([{ ended: 'stopped', danger: ['shock'] }]);
  });

  it('asks what no longer holds, and makes it again', async () => {
    const lines = carefulLines(theCase, sediment).slice(0, 6);
    const { out } = await worked(theCase, [...lines, 'lost', 'plug out or switch locked'], options);
    expect(out).toContain('What no longer holds?');
    expect(out.slice(out.indexOf('What no longer holds?'))).toContain('Then pull its plug');
  });

  it('leaves no step open: what makes a part safe is known, or it is not made', async () => {
    const { out, records } = await worked(theCase, ['u', 'not done'], options);
    expect(out.match(/That was not understood/g)).toHaveLength(2);
    expect(records).toMatchObject([{ ended: null, events: [] }]);
  });

  it('goes on from a record where it was left, and asks to check again after the time between', async () => {
    const lines = carefulLines(theCase, sediment).slice(0, 6);
    const first = await worked(theCase, lines, [...options, '--record', 'work.json']);
    const kept = JSON.parse(first.files['work.json']!);
    expect(kept.events).toHaveLength(6);
    const earlier = kept.events.map((event: object) => ({
      ...event,
      at: '2026-11-24T09:00:00+00:00',
    }));
    const work = { 'work.json': JSON.stringify({ ...kept, events: earlier }) };
    const second = await worked(theCase, [], ['--record', 'work.json'], work);
    expect(second.out).toContain('no longer: ');
    expect(second.out).toContain('Then pull its plug');
    expect(second.out).toContain('the dirt filter sed-1');
  });

  it('refuses a record of another job', async () => {
    const kept = { 'work.json': JSON.stringify({ job: 'change-lamp', part: 'uv', events: [] }) };
    const { code, err } = await tried(['work', 'case.json', ...options, '--record', 'work.json'], {
      files: { ...files, ...kept },
    });
    expect(code).toBe(2);
    expect(err).toContain('work.json: is the record of change-lamp');
  });

  it('speaks to each audience in its own way', async () => {
    const said = async (audience: string) =>
      (await worked(theCase, [], [...options, '--for', audience])).out;
    expect(await said('agent')).toMatch(/"Tell everyone[^"]*"\s+Listen for/);
    expect(await said('technician')).toContain(
      'Household told, someone knows when to look for you.',
    );
    expect(await said('householder')).toContain('Tell everyone in the house');
  });

  it("fills in the plant's own sizes", async () => {
    const { out } = await worked(theCase, carefulLines(theCase, sediment), options);
    const text = out.replaceAll(/\s+/g, ' ');
    expect(text).toContain('A new dirt filter of 20 micron');
    expect(text).toContain('Shut valve v1');
    expect(text).not.toMatch(/\{\w+\}/);
  });

  it('says what could not be understood and asks again', async () => {
    const { out } = await worked(theCase, ['hm', 'done'], ['--job', 'change-lamp']);
    expect(out).toContain('That was not understood');
    expect(out).toContain('Step 2 of');
  });

  it('asks in which unit the gauges read, takes figures in it and says the plant in it', async () => {
    const lines = carefulLines(theCase, { job: 'set-switch' });
    const inPsi = ['--pressure', 'psi', '--volume', 'L', '--job', 'set-switch'];
    const { out } = await tried(['work', 'case.json', ...inPsi], { files, lines });
    expect(out.replaceAll(/\s+/g, ' ')).toContain('On at 29 psi, off at 51 psi');
  });

  it('asks once in which unit the gauges and the bucket are read, and keeps bar and litres', async () => {
    const [open, closed] = [gaugesOf(fernhollow, 1), gaugesOf(fernhollow, 0)];
    const lines = carefulLines(theCase, { ...sediment, open, closed });
    const first = lines.indexOf(String(closed.bar.G1));
    const asked = [...lines.slice(0, first), 'psi', '50', ...lines.slice(first + 1)];
    const flow = asked.lastIndexOf(String(open.flowLpm));
    const typed = [...asked.slice(0, flow), 'us gallons', '3', ...asked.slice(flow + 1)];
    const { out, files: left } = await tried(
      ['work', 'case.json', ...options, '--case', 'after.json'],
      { files, lines: typed },
    );
    expect(out.match(/In which unit/g)).toHaveLength(2);
    const { answers } = JSON.parse(left['after.json']!);
    const answered = (question: string) =>
      answers.find((answer: { question: string }) => answer.question === question).value;
    expect(answered('readings').bar.G1).toBeCloseTo(3.447, 2);
    expect(answered('flow')).toMatchObject({ litres: expect.closeTo(11.36, 2), seconds: 60 });
  });

  it('is spoken in the language asked for, typed words included', async () => {
    const { out } = await tried(['work', 'case.json', ...options, '--language', 'es'], {
      files,
      lines: ['hecho', 'listo', '<', 'peligro', '1'],
    });
    expect(out).toContain('Paso 3 de');
    expect(out).toContain('El trabajo se paró por una señal de peligro');
    expect(out).not.toMatch(/\bdone\b|\bback\b|Type/);
  });
});

describe('whoever named no file', () => {
  const told = (args: readonly string[], lines: readonly string[], interactive?: true) =>
    tried(['work', 'case.json', ...inBar, ...args], {
      ...{ files, lines, ...(interactive && { interactive }) },
    });

  it('at a terminal finds the case with what was done in a file, and is told which', async () => {
    const { out, files: left } = await told(options, carefulLines(theCase, sediment), true);
    expect(out).toContain('Saved in gaugewalk-case.json.');
    const done = JSON.parse(left['gaugewalk-case.json'] ?? '{}').answers as { question: string }[];
    expect(done.map(({ question }) => question)).toContain('work-done');
  });

  it('at a terminal goes on from where the job was left', async () => {
    const lines = carefulLines(theCase, sediment);
    const begun = await told(options, [...lines.slice(0, 3), 's'], true);
    expect(begun.out.replaceAll(/\s+/g, ' ')).toContain(
      'To go on: gaugewalk work case.json --record gaugewalk-work.json',
    );
    const again = await tried(['work', 'case.json', ...inBar, '--record', 'gaugewalk-work.json'], {
      ...{ files: begun.files, lines: lines.slice(3), interactive: true },
    });
    expect(again.out).toContain('The job is done.');
  });

  it('behind a pipe leaves no file', async () => {
    const { files: left } = await told(options, carefulLines(theCase, sediment));
    expect(Object.keys(left)).toEqual(['case.json']);
  });
});
