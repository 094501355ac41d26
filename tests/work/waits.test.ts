import { describe, expect, it } from 'vitest';
import { fernhollow } from '../../shared/plant/fernhollow.ts';
import { apply, replay } from '../../shared/work/apply.ts';
import { featuresOf } from '../../shared/work/features.ts';
import { offered } from '../../shared/work/next.ts';
import { sheetOf } from '../../shared/work/sheet.ts';
import type { WorkContext, WorkState } from '../../shared/work/state.ts';
import { viewOf } from '../../shared/work/view.ts';
import { work, workWords } from './files.ts';
import { firstTick } from './first-tick.ts';
import { jobsOnReadyMade } from './jobs-on-ready-made.ts';

const contextOf = (job: string, part: string): WorkContext => ({
  sheet: sheetOf(
    work,
    job,
    featuresOf(
      fernhollow,
      fernhollow.line.findIndex(({ id }) => id === part),
    ),
  ),
  conditions: work.conditions,
});
const disinfecting = contextOf('disinfect-line', 'sed-1');
const start = Date.parse('2026-11-25T09:00:00Z');
const MINUTE = 60_000;
const at = (time: number) => new Date(time).toISOString();
const notBefore = (state: WorkState, context = disinfecting) =>
  viewOf(context, state, workWords, {}, 'householder').step?.notBefore;

/** Ticks a step a minute up to the one named; gives the state and when the last was ticked. */
function until(
  wanted: string,
  from: WorkState,
  begun: number,
  context = disinfecting,
): [WorkState, number] {
  let state = from;
  let time = begun;
  for (let n = 0; n < 60; n++) {
    const next = offered(context, state);
    if (!next || next.id === wanted) break;
    time += MINUTE;
    state = apply(context, state, { ...firstTick(next), at: at(time) });
  }
  expect(offered(context, state)?.id).toBe(wanted);
  return [state, time];
}

describe('a step that waits', () => {
  const [waiting, dosed] = until('contact-wait', replay(disinfecting, []), start);
  const over = at(dosed + 480 * MINUTE);

  it('is over so many minutes after it was come to', () => {
    expect(notBefore(waiting)).toBe(over);
  });

  it('is not taken before, and is when its time has gone by', () => {
    const early = apply(disinfecting, waiting, {
      step: 'contact-wait',
      at: at(dosed + 50 * MINUTE),
    });
    expect(early.refused).toEqual({ step: 'contact-wait', why: 'too-early', needs: [] });
    expect(offered(disinfecting, early)?.id).toBe('contact-wait');
    const context = contextOf('change-lamp', 'uv');
    const [hot, time] = until('cool-lamp', replay(context, []), start, context);
    const cool = (minutes: number, answer = 'dark-and-cool') =>
      apply(context, hot, { step: 'cool-lamp', answer, at: at(time + minutes * MINUTE) });
    expect(cool(9).refused?.why).toBe('too-early');
    expect(cool(9).made).toEqual(hot.made);
    expect(cool(10).refused).toBeNull();
    expect(offered(context, cool(10))?.id).toBe('take-lamp-out');
    // a light that is still on is told at once, and the wait is for the lamp that went out then
    const lit = cool(1, 'light-still-on');
    expect(offered(context, lit)?.id).toBe('right-plug');
    const dark = { step: 'right-plug', answer: 'now-dark', at: at(time + 5 * MINUTE) };
    expect(notBefore(apply(context, lit, dark), context)).toBe(at(time + 15 * MINUTE));
  });

  it('is taken where nobody knows the times', () => {
    const context = contextOf('change-lamp', 'uv');
    const untimed = ['tell-house', 'unplug-uv'].reduce(
      (state) => apply(context, state, firstTick(offered(context, state)!)),
      replay(context, []),
    );
    const asked = until('cool-lamp', untimed, start, context)[0];
    const tick = { step: 'cool-lamp', answer: 'dark-and-cool' };
    expect(apply(context, asked, tick).refused).toBeNull();
  });

  it('says nothing where nobody knows since when, nor at other steps', () => {
    const untimed = replay(
      disinfecting,
      waiting.ticks.map(({ at: _, ...tick }) => tick),
    );
    expect(offered(disinfecting, untimed)?.id).toBe('contact-wait');
    expect(notBefore(untimed)).toBeNull();
    expect(notBefore(replay(disinfecting, []))).toBeNull();
  });

  it('goes on counting while what the long wait put in doubt is checked again', () => {
    const late = dosed + 300 * MINUTE;
    const looked = apply(disinfecting, waiting, { step: 'contact-wait', at: at(late) });
    expect(looked.refused?.why).toBe('not-yet');
    expect(offered(disinfecting, looked)?.id).toBe('uv-still');
    const [again] = until('contact-wait', looked, late);
    expect(notBefore(again)).toBe(over);
  });

  it('begins anew when what it was for was lost', () => {
    const context = contextOf('change-lamp', 'uv');
    const [cold, time] = until('take-lamp-out', replay(context, []), start, context);
    const later = time + 30 * MINUTE;
    const lit = apply(context, cold, { lost: 'lamp-off-and-cold', at: at(later) });
    expect(offered(context, lit)?.id).toBe('cool-lamp');
    expect(notBefore(lit, context)).toBe(at(later + 10 * MINUTE));
  });

  it('comes to its end on every ready-made plant, though the wait is longer than what is safe unwatched', () => {
    const sheets = new Map(
      jobsOnReadyMade.map(({ job, features }) => [
        JSON.stringify([job, features]),
        { sheet: sheetOf(work, job, features), conditions: work.conditions },
      ]),
    );
    for (const context of sheets.values()) {
      let state = replay(context, []);
      let time = start;
      for (let n = 0; n < 200 && !state.ended; n++) {
        const next = offered(context, state)!;
        const waited = Date.parse(notBefore(state, context) ?? at(start));
        time = Math.max(time + MINUTE, waited);
        state = apply(context, state, { ...firstTick(next), at: at(time) });
      }
      expect(state.ended, context.sheet.job).not.toBeNull();
    }
    expect(sheets.size).toBeGreaterThan(300);
  });
});
