/** The width of a printed page on every terminal. */
const COLUMNS = 80;

/** Breaks a text into lines of at most 80 columns; `first` stands before the first line, `rest` before the others. */
export function wrap(text: string, first = '', rest = ' '.repeat(first.length)): string {
  return text
    .split('\n')
    .flatMap((paragraph, i) => wrapLine(paragraph, i === 0 ? first : rest, rest))
    .join('\n');
}

function wrapLine(text: string, first: string, rest: string): string[] {
  const lines: string[] = [];
  let line = first;
  let empty = true;
  for (const word of text.split(' ').filter((one) => one !== '')) {
    if (!empty && line.length + 1 + word.length > COLUMNS) {
      lines.push(line);
      line = rest;
      empty = true;
    }
    line += empty ? word : ` ${word}`;
    empty = false;
  }
  return [...lines, line.trimEnd()];
}
