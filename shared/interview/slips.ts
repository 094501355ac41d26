/** What is no slip, and what a slip may have been meant for. */
export interface Spelling {
  readonly known: ReadonlySet<string>;
  /** words, and beginnings of words, by their first letter */
  readonly wanted: ReadonlyMap<string, readonly string[]>;
}

/** Shorter words turn into others with one letter changed ("pipe", "ripe"). */
const FEWEST_LETTERS = 5;

export function spellingOf(known: readonly string[], wanted: readonly string[]): Spelling {
  const byLetter = new Map<string, string[]>();
  for (const word of new Set(wanted)) {
    if (word.length < FEWEST_LETTERS) continue;
    const letter = word[0] ?? '';
    byLetter.set(letter, [...(byLetter.get(letter) ?? []), word]);
  }
  return { known: new Set(known), wanted: byLetter };
}

/**
 * Words with their slips of the finger mended: one that is none of the known ones and one slip away from a wanted one is
 * taken for that. The first letter is hardly ever the wrong one, so it must fit.
 */
export function withoutSlips(spoken: readonly string[], { known, wanted }: Spelling): string[] {
  return spoken.map((word) => {
    if (word.length < FEWEST_LETTERS || known.has(word)) return word;
    const near = wanted.get(word[0] ?? '') ?? [];
    return (
      near.find((one) => isOneSlip(word, one)) ?? near.find((one) => begins(word, one)) ?? word
    );
  });
}

/** Of a beginning more words are near than of a whole word ("quema…", "quejan"), so it must be longer. */
const begins = (word: string, beginning: string): boolean =>
  beginning.length > FEWEST_LETTERS &&
  [-1, 0, 1].some((more) => isOneSlip(word.slice(0, beginning.length + more), beginning));

/**
 * One letter added or left out, two neighbours swapped (Damerau 1964), or one letter taken for another that lies beside
 * it on the keys or sounds like it: any other letter mostly makes another word ("stock", "shock").
 */
export function isOneSlip(a: string, b: string): boolean {
  if (Math.abs(a.length - b.length) > 1) return false;
  let start = 0;
  while (start < a.length && a[start] === b[start]) start++;
  const most = Math.min(a.length, b.length) - start;
  let end = 0;
  while (end < most && a[a.length - 1 - end] === b[b.length - 1 - end]) end++;
  const left = a.slice(start, a.length - end);
  const right = b.slice(start, b.length - end);
  if (left.length === 1 && right.length === 1) return areAlike(left, right);
  if (left.length <= 1 && right.length <= 1) return true;
  return left.length === 2 && left === `${right[1]}${right[0]}`;
}

const KEYS = ['qwertyuiop', 'asdfghjkl', 'zxcvbnm'];
const SOUNDS = ['aeiouy', 'bv', 'csz', 'ckq', 'gj', 'mn', 'dt'];

function areAlike(a: string, b: string): boolean {
  const [rowA, columnA] = keyOf(a);
  const [rowB, columnB] = keyOf(b);
  const [right, down] = [columnA - columnB, rowA - rowB];
  // each row of keys lies half a key to the right of the one above
  const areBeside =
    down === 0 ? Math.abs(right) === 1 : Math.abs(down) === 1 && (right === 0 || right === -down);
  return areBeside || SOUNDS.some((letters) => letters.includes(a) && letters.includes(b));
}

function keyOf(letter: string): readonly [number, number] {
  const row = KEYS.findIndex((letters) => letters.includes(letter));
  // a letter on none of these keys lies beside no other
  return row === -1 ? [Number.NaN, Number.NaN] : [row, KEYS[row]?.indexOf(letter) ?? Number.NaN];
}
