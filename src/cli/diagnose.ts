import type { CAC } from 'cac';
import { InputError } from '../../shared/common/errors.ts';
import { type Case, diagnose } from '../../shared/diagnosis/diagnose.ts';
import { inFile, parseCase } from './case-file.ts';
import type { Say } from './io.ts';
import { nameOf, parseJson, readJson } from './json-file.ts';
import type { Knowledge } from './knowledge.ts';
import { resultText } from './show/result.ts';
import { dayOf, type World } from './world.ts';

/** `gaugewalk diagnose FILE [--json]`: gives the exit code. */
async function runDiagnose(
  world: World,
  knowledge: Knowledge,
  path: string,
  options: { readonly json?: boolean | undefined },
): Promise<number> {
  if (path.endsWith('.jsonl')) return runLines(world, knowledge, path);
  const input = await readJson(world, path);
  const { theCase, result } = inFile(nameOf(path), () => {
    const theCase = parseCase(input);
    return { theCase, result: judged(theCase, world, knowledge) };
  });
  world.out(
    options.json ? `${JSON.stringify(result, null, 2)}\n` : resultText(result, theCase, knowledge),
  );
  return 0;
}

/** One case a line, one result a line; a line that cannot be used gives an error in its place. */
async function runLines(world: World, knowledge: Knowledge, path: string): Promise<number> {
  const text = await world.readText(path);
  let refused = 0;
  text.split('\n').forEach((row, i) => {
    if (row.trim() === '') return;
    const outcome = lineOutcome(row, i + 1, world, knowledge);
    if ('error' in outcome) refused += 1;
    world.out(`${JSON.stringify(outcome)}\n`);
  });
  if (refused === 0) return 0;
  world.err(`${nameOf(path)}: lines not used: ${refused}; each has its error in its place\n`);
  return 2;
}

function lineOutcome(row: string, line: number, world: World, knowledge: Knowledge) {
  try {
    return judged(parseCase(parseJson(row, 'case', line)), world, knowledge);
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return { error: { line, where: error.where, message: error.message } };
  }
}

function judged(theCase: Case, world: World, { rules, words }: Knowledge) {
  return diagnose(theCase, rules, words, dayOf(world.now()));
}

/** Adds `diagnose` to the command line. */
export function registerDiagnose(cli: CAC, world: World, say: Say, knowledge: Knowledge): void {
  cli
    .command('diagnose <file>', say('help-diagnose'))
    .option('--json', say('help-json'))
    .example('gaugewalk diagnose case.json')
    .example('gaugewalk diagnose cases.jsonl')
    .action((file: string, options: { json?: boolean }) =>
      runDiagnose(world, knowledge, file, options),
    );
}
