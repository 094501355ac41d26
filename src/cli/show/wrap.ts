/** The width of a printed page; a narrower terminal would break its lines within words. */
const PAGE_COLUMNS = 80;
const LEAST_COLUMNS = 30;

const columns = (): number =>
  Math.max(LEAST_COLUMNS, Math.min(PAGE_COLUMNS, process.stdout.columns ?? PAGE_COLUMNS));

/**
 * Breaks a text into lines of a page's width, or of the terminal's where that is narrower; `first` stands before the
 * first line, `rest` before the others.
 */
export function wrap(
  text: string,
  first = '',
  rest = ' '.repeat(first.length),
  width = columns(),
): string {
  return text
    .split('\n')
    .flatMap((paragraph, i) => wrapLine(paragraph, i === 0 ? first : rest, rest, width))
    .join('\n');
}

function wrapLine(text: string, first: string, rest: string, width: number): string[] {
  const lines: string[] = [];
  let line = first;
  let empty = true;
  for (const word of text.split(' ').filter((one) => one !== '')) {
    if (!empty && line.length + 1 + word.length > width) {
      lines.push(line);
      line = rest;
      empty = true;
    }
    line += empty ? word : ` ${word}`;
    empty = false;
  }
  return [...lines, line.trimEnd()];
}
