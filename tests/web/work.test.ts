import { describe, expect, test } from 'vitest';
import { readyMade } from '../../shared/plant/ready-made.ts';
import type { Plant } from '../../shared/plant/schema.ts';
import { readWork } from '../../shared/work/read.ts';
import type { WorkEvent } from '../../shared/work/state.ts';
import type { CaseNow, WorkNow } from '../../web/brain/protocol.ts';
import { showWork } from '../../web/brain/work.ts';
import { changed, rules, words, work, workWords } from '../work/files.ts';
import { unsafe } from '../work/unsafe.ts';

const plant = readyMade.find(({ id }) => id === 'three-stages-uv-last')?.plant as Plant;
const all = { rules, words, work, workWords };
const now: CaseNow = {
  ...{ plant, answers: [], audience: 'technician', day: '2026-11-25' },
  units: { pressure: 'bar', volume: 'L', language: 'en' },
};
const asked: WorkNow = {
  ...{ job: 'change-sediment', parts: ['sediment-2', 'sediment-1'], cause: 'sediment-blocked' },
  ...{ events: [], at: '2026-11-25T10:00:00+01:00' },
};

/** Ticks every step with its first answer, or the one said; reads `bar` at every gauge with water running. */
function workedThrough(from: WorkNow, bar: readonly number[], says: Record<string, string> = {}) {
  let events: WorkEvent[] = [];
  for (let i = 0; i < 80; i++) {
    const shown = showWork(all, now, { ...from, events });
    if (shown.end || !shown.view.step) return shown;
    const { id, answers, input } = shown.view.step;
    const answer = says[id] ?? answers[0]?.id;
    const read = readingOf(input, bar);
    const at = from.at;
    events = [
      ...events,
      { step: id, at, ...(answer !== undefined && { answer }), ...(read && { input: read }) },
    ];
  }
  throw new Error('the job never ended');
}

const gauges = plant.line.flatMap(({ id, kind }) => (kind === 'gauge' ? [id] : []));

function readingOf(input: string | null | undefined, bar: readonly number[]) {
  const shown = (of: readonly number[]) => Object.fromEntries(gauges.map((id, i) => [id, of[i]]));
  if (input === 'readings-closed')
    return { taps: 'closed', bar: shown(gauges.map(() => bar[0] ?? 0)) };
  return input === 'readings-open' ? { taps: { open: 1 }, bar: shown(bar) } : null;
}

describe('a job in the browser', () => {
  test('is done on the first part of the route and offers the others at its end', () => {
    const shown = workedThrough(asked, [2.7, 0.9, 0.8]);
    expect(shown.part).toBe('sediment-2');
    expect(shown.view.ended).toBe('done');
    expect(shown.end).toMatchObject({ nextParts: ['sediment-1'], leadsTo: null });
    expect(shown.end?.cause).toBe('sediment-blocked');
  });

  test('offers no other part at the end of the last one', () => {
    const last = workedThrough({ ...asked, parts: ['sediment-1'] }, [2.7, 0.9, 0.8]);
    expect(last.end).toMatchObject({ nextParts: [], leadsTo: null });
  });

  test('is opened anew where the case or the parts are other ones', () => {
    const before = showWork(all, now, asked);
    const cloudy = { question: 'look', value: 'cloudy-stays', at: '2026-11-25T09:00:00Z' };
    const infant = { question: 'household', value: ['infant'], at: '2026-11-25T09:00:00Z' };
    const later = { ...now, answers: [cloudy, infant] };
    expect(showWork(all, later, asked).advice).not.toEqual(before.advice);
    expect(showWork(all, now, asked)).toEqual(before);
    expect(showWork(all, now, { ...asked, parts: ['sediment-1'] }).part).toBe('sediment-1');
  });

  test('says what is made, and since when, for whoever goes on elsewhere', () => {
    const at = (minute: number) => `2026-11-25T10:0${minute}:00+01:00`;
    const steps = ['tell-house', 'parts-ready', 'lock-pump', 'try-pump'];
    let events: WorkEvent[] = [];
    for (const [i, step] of steps.entries()) {
      const { view } = showWork(all, now, { ...asked, events });
      expect(view.step?.id).toBe(step);
      const answer = view.step?.answers[0]?.id;
      events = [...events, { step, at: at(i), ...(answer !== undefined && { answer }) }];
    }
    const shown = showWork(all, now, { ...asked, events });
    expect(shown.made).toEqual(expect.arrayContaining(['locked', 'pump-tried']));
    expect(shown.madeAt).toMatchObject({ locked: at(2), 'power-locked-off': at(3) });
    const found = { stillSo: shown.made, at: at(4) };
    expect(showWork(all, now, { ...asked, events: [...events, found] }).view.step).toEqual(
      shown.view.step,
    );
  });

  test('names the job it is handed over to, and who does that', () => {
    const restore = { ...asked, job: 'restore-power', parts: [], cause: null };
    const says = { 'power-look': 'breaker-down', 'breaker-once': 'trips-again' };
    const shown = workedThrough(restore, [2.7, 0.9, 0.8], says);
    expect(shown.view.ended).toBe('handed-over');
    expect(shown.end).toMatchObject({
      nextParts: [],
      leadsTo: { job: 'call-electrician', name: words.jobs['call-electrician']?.name },
    });
    expect(shown.end?.leadsTo?.by).toBe(work.jobs['call-electrician']?.by);
  });

  test.each(unsafe.filter(({ job }) => job === 'change-sediment').slice(0, 6))(
    'is refused before its first step when $title',
    ({ edits }) => {
      const broken = readWork(changed(edits)).work;
      expect(() => showWork({ ...all, work: broken }, now, asked)).toThrow(
        /is not safe on this plant: /,
      );
    },
  );
});
