/** Lets only the drawn mutants through: a range drawn around a whole block holds others, which must not count. */
const drawn = new Set(JSON.parse(process.env.GAUGEWALK_DRAWN ?? '[]'));

/** What tells one mutant from all others of a file. */
export function keyOf(fileName, { mutatorName, location: { start, end }, replacement }) {
  return JSON.stringify([
    fileName,
    mutatorName,
    start.line,
    start.column,
    end.line,
    end.column,
    replacement,
  ]);
}

const relative = (fileName) => fileName.slice(fileName.lastIndexOf('/shared/') + 1);

export const strykerPlugins = [
  {
    kind: 'Checker',
    name: 'sampled',
    value: {
      async init() {},
      async check(mutants) {
        return Object.fromEntries(
          mutants.map((mutant) => [
            mutant.id,
            drawn.has(keyOf(relative(mutant.fileName), mutant))
              ? { status: 'passed' }
              : { status: 'compileError', reason: 'not drawn' },
          ]),
        );
      },
      async group(mutants) {
        return [mutants.map(({ id }) => id)];
      },
    },
  },
];
