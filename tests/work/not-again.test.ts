import { describe, expect, it } from 'vitest';
import type { Case } from '../../shared/diagnosis/diagnose.ts';
import { readyMade } from '../../shared/plant/ready-made.ts';
import type { Plant } from '../../shared/plant/schema.ts';
import { carefulLines, diagnosed, today, worked } from './session.ts';

/** A pump that cut out, and a pump whose breaker dropped: each is put back once, and once only. */
const plant = readyMade.find(({ id }) => id === 'tank-and-controller')?.plant as Plant;
const silent = (power: string): Case & { plant: Plant } => ({
  plant,
  today,
  answers: Object.entries({
    ...{ danger: [], complaint: ['no-water'], onset: 'sudden', 'recent-work': [] },
    ...{ 'pump-open': 'silent', 'tank-level': 'half', 'power-at-pump': power },
  }).map(([question, value]) => ({ question, value })),
});

const jobsOf = (theCase: Case) => diagnosed(theCase).plan.map(({ job }) => job);

async function triedOnce(theCase: ReturnType<typeof silent>, says: Record<string, string>) {
  const [job = ''] = jobsOf(theCase);
  const lines = carefulLines(theCase, { job, says });
  const { after, records } = await worked(theCase, lines, ['--job', job]);
  return { job, record: records[0], after: { ...theCase, answers: after.answers } };
}

describe('what may be tried once only', () => {
  it.each([
    ['reset-pump-once', 'on', { 'reset-once': 'stops-again' }],
    ['restore-power', 'off', { 'power-look': 'breaker-down', 'breaker-once': 'trips-again' }],
  ])('is not told a second time: %s', async (name, power, says) => {
    const { job, record, after } = await triedOnce(silent(power), says);
    expect({ job, ended: record?.ended }).toEqual({ job: name, ended: 'handed-over' });
    expect(after.answers.at(-1)).toMatchObject({
      question: 'work-done',
      value: { job, done: false, again: false },
    });
    expect(jobsOf(after)).not.toContain(job);
    // somebody else goes on from there
    expect(jobsOf(after)).toContain('call-technician');
  });

  it('may be told again when the supply only was away', async () => {
    const { job, after } = await triedOnce(silent('off'), { 'power-look': 'no-power-anywhere' });
    expect(jobsOf(after)).toContain(job);
  });

  it('may be told again once other work was done', async () => {
    const theCase = silent('on');
    const { job, after } = await triedOnce(theCase, { 'reset-once': 'stops-again' });
    const mended = { question: 'work-done', value: { job: 'call-technician' } };
    const later = { ...theCase, answers: [...after.answers, mended, ...theCase.answers] };
    expect(jobsOf(later)).toContain(job);
  });
});
