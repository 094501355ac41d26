/** Letters to change, add or drop to turn one word into the other (Levenshtein 1966). */
export function editDistance(a: string, b: string): number {
  let above = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const swap = (above[j - 1] ?? 0) + Number(a[i - 1] !== b[j - 1]);
      row.push(Math.min(swap, (above[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1));
    }
    above = row;
  }
  return above[b.length] ?? 0;
}

/** The known word closest to a mistyped one; undefined when none is close enough to be meant. */
export function nearest(word: string, known: readonly string[]): string | undefined {
  // of a short word most letters would be others
  const enough = word.length < 5 ? 1 : Math.max(2, Math.floor(word.length / 3));
  const ranked = known
    // as many letters must change as there are more of them; spares the reckoning on a page of text
    .filter((candidate) => Math.abs(candidate.length - word.length) <= enough)
    .map((candidate) => ({ candidate, distance: editDistance(word, candidate) }))
    .sort((a, b) => a.distance - b.distance);
  const best = ranked[0];
  return best && best.distance <= enough ? best.candidate : undefined;
}

/** "did you mean "x"?", or the whole list when it is short, or what else can be done. */
export function suggestion(word: string, known: readonly string[], otherwise: string): string {
  const best = nearest(word, known);
  if (best !== undefined) return `did you mean "${best}"?`;
  return known.length > 0 && known.length <= 8 ? `use one of ${known.join(', ')}` : otherwise;
}
