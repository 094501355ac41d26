import type { CAC } from 'cac';
import { InputError } from '../../shared/common/errors.ts';
import { localDay } from '../../shared/common/local-time.ts';
import { type Case, diagnose } from '../../shared/diagnosis/diagnose.ts';
import type { Units } from '../../shared/ruleset/figures.ts';
import { inFile, parseCase } from './case-file.ts';
import type { Say } from './io.ts';
import { nameOf, parseJson, readJson } from './json-file.ts';
import type { Knowledge } from './knowledge.ts';
import { resultText } from './show/result.ts';
import { type UnitOptions, unitsOf, withUnits } from './units.ts';
import type { World } from './world.ts';

interface DiagnoseOptions extends UnitOptions {
  readonly json?: boolean | undefined;
}

/** `gaugewalk diagnose FILE [--json]`: gives the exit code. */
async function runDiagnose(
  world: World,
  knowledge: Knowledge,
  path: string,
  options: DiagnoseOptions,
): Promise<number> {
  const units = unitsOf(options, knowledge.language);
  if (path.endsWith('.jsonl')) return runLines(world, knowledge, units, path);
  const input = await readJson(world, path);
  const { theCase, result } = inFile(nameOf(path), () => {
    const theCase = parseCase(input);
    return { theCase, result: judged(theCase, world, knowledge, units) };
  });
  world.out(
    options.json
      ? `${JSON.stringify(result, null, 2)}\n`
      : resultText(result, theCase, knowledge, units),
  );
  return 0;
}

/** One case a line, one result a line; a line that cannot be used gives an error in its place. */
async function runLines(
  world: World,
  knowledge: Knowledge,
  units: Units,
  path: string,
): Promise<number> {
  const text = await world.readText(path);
  let refused = 0;
  text.split('\n').forEach((row, i) => {
    if (row.trim() === '') return;
    const outcome = lineOutcome(row, i + 1, world, knowledge, units);
    if ('error' in outcome) refused += 1;
    world.out(`${JSON.stringify(outcome)}\n`);
  });
  if (refused === 0) return 0;
  world.err(`${nameOf(path)}: lines not used: ${refused}; each has its error in its place\n`);
  return 2;
}

function lineOutcome(row: string, line: number, world: World, knowledge: Knowledge, units: Units) {
  try {
    return judged(parseCase(parseJson(row, 'case', line)), world, knowledge, units);
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return { error: { line, where: error.where, message: error.message } };
  }
}

/** Texts in the reader's units; figures in bar and litres, as the fields say. */
function judged(theCase: Case, world: World, { rules, words }: Knowledge, units: Units) {
  return diagnose(theCase, rules, words, localDay(world.now()), units);
}

/** Adds `diagnose` to the command line. */
export function registerDiagnose(cli: CAC, world: World, say: Say, knowledge: Knowledge): void {
  withUnits(cli.command('diagnose <file>', say('help-diagnose')), say)
    .option('--json', say('help-json'))
    .example('gaugewalk diagnose case.json')
    .example('gaugewalk diagnose cases.jsonl')
    .action((file: string, options: DiagnoseOptions) =>
      runDiagnose(world, knowledge, file, options),
    );
}
