/** Columns of a table of text, the last one to the right where it holds numbers. */
export function tableOf(
  head: readonly string[] | null,
  rows: readonly (readonly string[])[],
): string {
  const all = head ? [head, ...rows] : rows;
  const columns = all[0]?.length ?? 0;
  const widths = Array.from({ length: columns }, (_, column) =>
    Math.max(...all.map((row) => row[column]?.length ?? 0)),
  );
  const numeric = widths.map((_, column) => rows.every((row) => isNumber(row[column] ?? '')));
  const lineOfRow = (row: readonly string[]) =>
    row
      .map((cell, column) => {
        const width = widths[column] ?? 0;
        return numeric[column] ? cell.padStart(width) : cell.padEnd(width);
      })
      .join('  ')
      .trimEnd();
  return `${all.map((row) => `  ${lineOfRow(row)}`).join('\n')}\n`;
}

const isNumber = (cell: string) => /^-?\d+([.,]\d+)?$/.test(cell);
