import { expect, test } from 'vitest';
import { agoText, isQuiet } from '../../web/work/ago.ts';

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const now = new Date('2026-11-27T12:00:00Z');
const before = (ms: number): string => new Date(now.getTime() - ms).toISOString();

test.each([
  [59_000, 'this minute'],
  [-2 * MINUTE, 'this minute'],
  [MINUTE, '1 minute ago'],
  [59.9 * MINUTE, '59 minutes ago'],
  [HOUR, '1 hour ago'],
  [47.9 * HOUR, '47 hours ago'],
  [48 * HOUR, '2 days ago'],
])('%d ms ago is told as "%s"', (ms, text) => {
  expect(agoText(before(ms), now, 'en')).toBe(text);
});

test('it is told in the language of the reader', () => {
  expect(agoText(before(40 * MINUTE), now, 'es')).toBe('hace 40 minutos');
});

test('a job is quiet half an hour after its step should have been done', () => {
  expect(isQuiet(before(30 * MINUTE), now, 0)).toBe(false);
  expect(isQuiet(before(31 * MINUTE), now, 0)).toBe(true);
  expect(isQuiet(before(500 * MINUTE), now, 480)).toBe(false);
});
