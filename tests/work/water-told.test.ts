import { describe, expect, it } from 'vitest';
import { diagnose } from '../../shared/diagnosis/diagnose.ts';
import { fernhollow } from '../../shared/plant/fernhollow.ts';
import { siUnits } from '../../shared/ruleset/figures.ts';
import { recordFrom } from '../../shared/upkeep/record.ts';
import { replay } from '../../shared/work/apply.ts';
import { openJob } from '../../shared/work/job.ts';
import { offered } from '../../shared/work/next.ts';
import { caseWith, recordOf } from '../../shared/work/record.ts';
import type { WorkEvent } from '../../shared/work/state.ts';
import { latestRuleSet } from '../../src/rules/read.ts';
import { work } from './files.ts';
import { firstTick } from './first-tick.ts';

const { ruleSet: rules, words } = latestRuleSet();
const knowledge = { rules, words: words.en!, work };
const DAY = '2026-11-25';
type Theirs = Parameters<typeof diagnose>[0];
const start: Theirs = { plant: fernhollow, answers: [{ question: 'danger', value: [] }] };

/** Does a job with the first answer to each step, but for those named; gives the case after it and the record. */
function afterJob(theCase: Theirs, job: string, says: Readonly<Record<string, string>>) {
  const open = openJob(theCase, { job }, knowledge, DAY, siUnits)!;
  const events: WorkEvent[] = [];
  let state = replay(open.context, [], open.advice);
  for (let step = offered(open.context, state); step; step = offered(open.context, state)) {
    events.push(firstTick(step, says));
    state = replay(open.context, events, open.advice);
  }
  const record = recordOf(open, state, events, knowledge, DAY);
  return { record, state, theCase: caseWith(theCase, record.answers) };
}

const isToBoil = (theCase: Theirs): boolean =>
  diagnose(theCase, rules, words.en!, DAY).cautions.some(({ id }) => id === 'boil-or-bottled');

describe('what may not be drunk', () => {
  it('outlasts the job that brought it, and names the job that ends it', () => {
    expect(isToBoil(start)).toBe(false);
    expect(isToBoil(afterJob(start, 'change-lamp', {}).theCase)).toBe(false);
    const { record, theCase } = afterJob(start, 'change-lamp', { 'unlit-water': 'was-dark' });
    expect(record).toMatchObject({ ended: 'done', leadsTo: 'disinfect-line' });
    expect(isToBoil(theCase)).toBe(true);
    // other work in between says nothing of it
    const mended = afterJob(theCase, 'change-sediment', {}).theCase;
    expect(isToBoil(mended)).toBe(true);
    const treated = afterJob(mended, 'disinfect-line', {});
    expect(treated.record.ended).toBe('done');
    expect(isToBoil(treated.theCase)).toBe(treated.state.advice.includes('microbes'));
    expect(treated.state.advice).toEqual([]);
  });

  it('outlasts a job that was handed over, which is no work done', () => {
    const { record, theCase } = afterJob(start, 'clean-sleeve', { 'draw-sleeve': 'broken' });
    expect(record.ended).toBe('handed-over');
    expect(record.answers).toMatchObject([
      { question: 'work-done', value: { notToDrink: ['microbes'], done: false } },
    ]);
    expect(record.proof).toBeNull();
    expect(isToBoil(theCase)).toBe(true);
    const at = '2026-11-25T09:00:00Z';
    const told = theCase.answers.map((answer) => ({ ...answer, at }));
    expect(recordFrom(told).done).toEqual([]);
  });

  it('is told as before where work says nothing of it', () => {
    const done = { question: 'work-done', value: { job: 'change-lamp', notToDrink: ['microbes'] } };
    const later = { question: 'work-done', value: { job: 'change-sediment' } };
    expect(isToBoil(caseWith(start, [done, later]))).toBe(true);
    const cleared = { question: 'work-done', value: { job: 'disinfect-line', notToDrink: [] } };
    expect(isToBoil(caseWith(start, [done, cleared]))).toBe(false);
  });
});

it('a job that was not for what troubles most says so: the work ends what was said of it', () => {
  const answers = [
    { question: 'danger', value: [] },
    { question: 'complaint', value: ['taste', 'smell'] },
    { question: 'taste', value: 'chemical' },
    { question: 'smell', value: 'chlorine' },
  ];
  const tasting: Theirs = { plant: fernhollow, answers };
  const before = diagnose(tasting, rules, words.en!, DAY).causes;
  const likely = before.filter(
    ({ id, probability }) =>
      probability >= 0.35 && rules.causes[id]?.block === 'quality' && !rules.causes[id]?.pastLife,
  );
  expect(likely.length).toBeGreaterThan(0);
  const { record } = afterJob(tasting, 'change-sediment', {});
  expect(record.untouched).toEqual(likely.map(({ id }) => id));
  expect(afterJob(tasting, 'change-carbon', {}).record.untouched).not.toContain('carbon-exhausted');
});
