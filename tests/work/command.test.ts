import { describe, expect, it } from 'vitest';
import { fernhollow } from '../../shared/plant/fernhollow.ts';
import { tried } from '../cli/world.ts';
import { careful, today, worked } from './session.ts';

const theCase = { plant: fernhollow, answers: [], today };
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
    expect(out).toContain('The job is not finished. Leave the pump locked');
  });

  it.each([
    [['work', 'case.json', '--job', 'fly'], 'no job sheet "fly"'],
    [['work', 'case.json', '--job', 'change-lamp', '--part', 'sed-9'], 'no part "sed-9"'],
    [['work', 'case.json', '--for', 'child'], 'use one of householder, agent, technician'],
    [['work', 'none.json'], 'there is no such file'],
  ])('refuses %j in one line', async (args, message) => {
    const { code, err } = await tried(args, { files });
    expect(code).toBe(2);
    expect(err).toContain(message);
    expect(err.trim().split('\n')).toHaveLength(1);
  });

  it('stops at a danger sign typed at any moment, says whom to call and leaves a record', async () => {
    let typed = 0;
    const typist = careful({});
    const { out, record, after } = await worked(
      theCase,
      (asked, screen) => (typed++ === 4 ? 'shock' : typist(asked, screen)),
      { job: 'change-sediment', part: 'sed-1' },
    );
    expect(out.replaceAll(/\s+/g, ' ')).toContain('Call an electrician');
    expect(record).toMatchObject({ ended: 'stopped', danger: ['shock'] });
    expect(after.answers).toMatchObject([{ question: 'danger', value: ['shock'] }]);
  });

  it('goes on from a record where it was left, and asks to check again after the time between', async () => {
    let typed = 0;
    const typist = careful({});
    const options = { job: 'change-sediment', part: 'sed-1', record: 'work.json' };
    const first = await worked(
      theCase,
      (asked, screen) => (typed++ < 6 ? typist(asked, screen) : null),
      options,
    );
    const kept = JSON.parse(first.files['work.json']!);
    expect(kept.events).toHaveLength(6);
    const earlier = kept.events.map((event: object) => ({
      ...event,
      at: '2026-11-24T09:00:00+00:00',
    }));
    const work = { 'work.json': JSON.stringify({ ...kept, events: earlier }) };
    const second = await worked(theCase, () => null, options, work);
    expect(second.out).toContain('no longer: ');
    expect(second.out).toContain('Then pull its plug');
  });

  it('speaks to each audience in its own way', async () => {
    const said = async (audience: string) =>
      (await worked(theCase, () => null, { job: 'change-sediment', part: 'sed-1', for: audience }))
        .out;
    expect(await said('agent')).toMatch(/"Tell everyone[^"]*"\s+Listen for/);
    expect(await said('technician')).toContain('Household told. Hands and floor dry.');
    expect(await said('householder')).toContain('Tell everyone in the house');
  });

  it("fills in the plant's own sizes", async () => {
    const typist = careful({});
    const { out } = await worked(theCase, typist, { job: 'change-sediment', part: 'sed-1' });
    const text = out.replaceAll(/\s+/g, ' ');
    expect(text).toContain('A new dirt filter of 20 micron');
    expect(text).toContain('Shut valve v1');
    expect(text).not.toMatch(/\{\w+\}/);
  });

  it('says what could not be understood and asks again', async () => {
    const lines = ['hm', 'done'];
    const { out } = await worked(theCase, () => lines.shift() ?? null, { job: 'change-lamp' });
    expect(out).toContain('That was not understood');
  });
});
