import { expect, test } from 'vitest';
import { forServer, merged } from '../../web/store/merged.ts';

const answer = (answerId: string) => ({ answerId, question: 'onset', value: answerId });
const [a, b, c, d] = ['a', 'b', 'c', 'd'].map(answer) as [Answer, Answer, Answer, Answer];
type Answer = ReturnType<typeof answer>;

test.each([
  ['others answered in between', [a, b], [a, c], [a, c, b], 2],
  ['ours had arrived though the reply was lost', [a, b], [a, b], [a, b], 2],
  ['nothing is here yet', [], [a, b], [a, b], 2],
  ['nothing is there yet', [a, b], [], [a, b], 0],
  ['both at once, twice', [a, b, d], [a, c, b], [a, c, b, d], 3],
])('when %s, theirs come first, ours follow, each once', (_, ours, theirs, expected, sent) => {
  const after = merged({ answers: ours, sent: 1 }, theirs);
  expect(after.answers).toEqual(expected);
  expect(after.sent).toBe(sent);
});

const refused = { ...b, refused: true as const };

test.each([
  ['one that was answered since', [a, refused, c], [a, c], [a, refused, c]],
  ["others' that came between", [a, refused, c], [a, d], [a, refused, d, c]],
  ['nothing', [refused, a], [a], [refused, a]],
  [
    'another refused one',
    [a, refused, { ...c, refused: true as const }, d],
    [a, d],
    [a, refused, { ...c, refused: true as const }, d],
  ],
])(
  'an answer the server refused stays where it was given, before %s',
  (_, ours, theirs, expected) => {
    const after = merged({ answers: ours, sent: 1 }, theirs);
    expect(after.answers).toEqual(expected);
    expect(forServer(after).slice(0, after.sent)).toEqual(theirs);
  },
);

test('an answer that the server has after all is refused no more', () => {
  expect(merged({ answers: [a, refused], sent: 1 }, [a, b]).answers).toEqual([a, b]);
});
