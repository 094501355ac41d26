import { InputError } from '../../../shared/common/errors.ts';
import type { NamedCase } from '../../rules/replay.ts';
import { inFile, parseCase } from '../case-file.ts';
import type { Io } from '../io.ts';
import { nameOf, parseJson } from '../json-file.ts';

/**
 * Cases out of a file: one case a line, or what `gaugewalk export` wrote.
 * @throws InputError naming file and line of the first that cannot be used
 */
export async function readCases(io: Io, path: string): Promise<NamedCase[]> {
  const rows = (await io.readText(path)).split('\n').flatMap((text, i) => {
    const where = `${nameOf(path)}:${i + 1}`;
    return text.trim() === '' ? [] : [{ where, value: parseJson(text, nameOf(path), i + 1) }];
  });
  const first = rows[0]?.value;
  if (isRecord(first) && first.gaugewalk === 'export') return exported(rows.slice(1));
  return rows.map(({ where, value }) => ({
    name: where,
    input: inFile(where, () => parseCase(value)),
  }));
}

interface Line {
  readonly where: string;
  readonly value: unknown;
}

/** The cases of an export: each row of `cases` with its rows of `answers` in their order. */
function exported(lines: readonly Line[]): NamedCase[] {
  const rowsOf = (table: string) =>
    lines.flatMap(({ where, value }) =>
      isRecord(value) && value.table === table && isRecord(value.row)
        ? [{ where, row: value.row }]
        : [],
    );
  const answers = rowsOf('answers').sort((a, b) => Number(a.row.position) - Number(b.row.position));
  return rowsOf('cases').flatMap(({ where, row }) => {
    const own = answers.filter((answer) => answer.row.case_ref === row.ref);
    // a case begun without a plant has it among its answers
    const described = own.find((answer) => answer.row.question === 'plant')?.row.value;
    const plant = row.plant ?? described;
    if (plant === undefined) return [];
    const input = {
      plant: cell(plant, where),
      audience: row.audience,
      answers: own.map((answer) => ({
        question: answer.row.question,
        value: cell(answer.row.value, answer.where),
        ...(answer.row.at !== null && { at: answer.row.at }),
      })),
    };
    return [{ name: where, input: inFile(where, () => parseCase(input)) }];
  });
}

function cell(text: unknown, where: string): unknown {
  if (typeof text !== 'string') throw new InputError(where, 'is not a line of an export');
  return parseJson(text, where);
}

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null;
