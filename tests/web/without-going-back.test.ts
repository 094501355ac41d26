import { expect, test } from 'vitest';
import { fernhollow } from '../../shared/plant/ready-made.ts';
import { withoutGoingBack } from '../../web/store/without-going-back.ts';

const answers = (...ids: string[]) =>
  ids.map((answerId) => ({ answerId, question: 'look', value: 'clear' }));
const kept = (...ids: string[]) => ({ answers: answers(...ids), plant: fernhollow });

test('an answer on the screen is not taken back by a copy written before it was', () => {
  const before = kept('a', 'b');
  // the server took "a" while "b" was being given
  const after = { ...structuredClone(kept('a')), sent: 1 };
  const shown = withoutGoingBack({ ...before, sent: 0 }, after);
  expect(shown.answers).toBe(before.answers);
  expect(shown.sent).toBe(1);
});

test('a copy that says the same is not judged again: list and plant stay the very ones', () => {
  const before = kept('a', 'b');
  const shown = withoutGoingBack(before, structuredClone(before));
  expect(shown.answers).toBe(before.answers);
  expect(shown.plant).toBe(before.plant);
});

test.each([
  ['one more', kept('a', 'b'), kept('a', 'b', 'c')],
  ["another's before ours", kept('a', 'b'), kept('a', 'x', 'b')],
  ['the first there is', kept(), kept('a')],
])('answers from elsewhere are taken: %s', (_, before, after) => {
  expect(withoutGoingBack(before, after).answers).toBe(after.answers);
});

test('a copy that says an answer was refused is taken', () => {
  const after = { ...kept(), answers: [{ ...answers('a')[0]!, refused: true as const }] };
  expect(withoutGoingBack(kept('a'), after).answers).toBe(after.answers);
});

test('a corrected plant is taken', () => {
  const after = { ...kept('a'), plant: { ...fernhollow, name: 'Another' } };
  expect(withoutGoingBack(kept('a'), after).plant).toBe(after.plant);
});

test('a copy that says nothing new is not drawn again', () => {
  const before = { ...kept('a'), sent: 1, changedAt: '2026-01-01' };
  const copy = { ...structuredClone(before), changedAt: '2026-01-02' };
  expect(withoutGoingBack(before, copy)).toBe(before);
  expect(withoutGoingBack(before, { ...copy, sent: 2 })).not.toBe(before);
});
