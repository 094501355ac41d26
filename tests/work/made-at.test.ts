import { expect, test } from 'vitest';
import { madeAt } from '../../shared/work/made-at.ts';
import type { WorkEvent } from '../../shared/work/state.ts';
import { context, run, toOpen } from './made-sheet.ts';

const at = (minute: number): string => `2026-11-25T09:${String(minute).padStart(2, '0')}:00Z`;
const timed = (events: readonly WorkEvent[], from = 0) =>
  events.map((event, i) => ({ ...event, at: at(from + i) }));

test('each condition was made when its step was ticked, one made of others when enough of them were', () => {
  expect(madeAt(context, timed(toOpen))).toEqual({
    ...{ told: at(0), locked: at(1), shut: at(2), 'sign-tap': at(3), 'sign-bleed': at(4) },
    ...{ dry: at(4), far: at(5) },
  });
});

test('what was lost and made again was made the second time', () => {
  const [, lock] = toOpen as [WorkEvent, WorkEvent];
  const again = timed([{ lost: 'locked' }, lock], 20);
  expect(madeAt(context, [...timed(toOpen), ...again])).toMatchObject({
    told: at(0),
    locked: at(21),
  });
});

test('what somebody found still so counts from when they looked', () => {
  const looked = { stillSo: run(toOpen).made, at: at(30) };
  const times = madeAt(context, [...timed(toOpen), looked]);
  expect(new Set(Object.values(times))).toEqual(new Set([at(30)]));
});

test('nobody knows when what has no time was made', () => {
  expect(madeAt(context, toOpen.slice(0, 1))).toEqual({ told: null });
});
