import { type Option, plain } from './match.ts';

/** A pattern for one of these standing by itself. */
function asWords(said: readonly string[]): string {
  const literal = said.map((one) => one.replaceAll(/[\\^$.*+?()[\]{}|/]/g, '\\$&'));
  return `(?<=^|[\\s,;])(?:${literal.join('|')})(?=[\\s,;.]|$)`;
}

/** The parts of a line that may each say something; an "and" within an option's own wording parts nothing. */
export function piecesOf(
  line: string,
  options: readonly Option[],
  and: readonly string[],
): string[] {
  const numbers = line.trim().split(/[\s,;]+/);
  if (numbers.every((one) => /^\d+$/.test(one))) return numbers;
  const parting = new RegExp(`[,;]|${asWords(and)}`, 'iu');
  // "on and off" is one thing, not two
  const joined = options
    .flatMap(({ label, alsoSaid }) => [label, ...alsoSaid])
    .filter((said) => parting.test(said) && new RegExp(asWords([said]), 'iu').test(line));
  const rest = joined.reduce(
    (left, said) => left.replace(new RegExp(asWords([said]), 'iu'), ';'),
    line,
  );
  return [...joined, ...rest.split(parting)].filter((piece) => plain(piece) !== '');
}
