import { existsSync } from 'node:fs';
import { join } from 'node:path';
import type { CAC } from 'cac';
import { InputError } from '../../shared/common/errors.ts';
import { suggestion } from '../../shared/ruleset/nearest.ts';
import { checkRules } from '../rules/check.ts';
import { compareRules } from '../rules/compare.ts';
import { makeDraft, publish } from '../rules/draft.ts';
import { effectText } from '../rules/effect.ts';
import { jsonSchemaOf, schemaNames } from '../rules/json-schema.ts';
import { learnText, provenIn } from '../rules/learn.ts';
import { type ReadRuleSet, readRuleSet, ruleSetVersions, rulesFolder } from '../rules/read.ts';
import { inFile, parseCase } from './case-file.ts';
import type { Io } from './io.ts';
import { readJson } from './json-file.ts';
import { readCases } from './rules/cases.ts';
import { type ShowOptions, show } from './rules/show.ts';

interface Options extends ShowOptions {
  readonly quick?: boolean;
  readonly from?: string;
  readonly to?: string;
  readonly cases?: string;
  readonly worlds?: string | number;
  readonly reason?: string;
}

interface Action {
  /** what stands behind its name */
  readonly takes: readonly string[];
  /** may be left out */
  readonly optional?: true;
  readonly run: (io: Io, given: readonly string[], options: Options) => number | Promise<number>;
}

const actions: Readonly<Record<string, Action>> = {
  check: { takes: ['FOLDER'], run: check },
  show: {
    takes: ['VERSION'],
    run: (io, [version = ''], options) => show(io, read(version), options),
  },
  compare: { takes: ['VERSION', 'VERSION'], run: compare },
  draft: { takes: ['NEW-DATE'], run: draft },
  try: { takes: ['DRAFT', 'CASE'], run: tryOn },
  publish: { takes: ['DRAFT'], run: publishDraft },
  learn: { takes: ['CASES'], run: learn },
  schema: { takes: ['FILE'], optional: true, run: schema },
};

/** `gaugewalk rules …`: exit 0, or 2 when there is something to mend or a draft is refused. */
export function registerRules(cli: CAC, io: Io): void {
  cli
    .command('rules <action> [...what]', 'read, check, correct and compare rule sets')
    .option('--quick', 'check, publish: without the search for unsafe ways through the jobs')
    .option(
      '--from <version>',
      'draft, try, publish, learn: the version it comes from (the newest)',
    )
    .option(
      '--to <folder>',
      'draft: where to put it (drafts/NEW-DATE); publish: the folder of versions',
    )
    .option(
      '--cases <file>',
      'compare: cases to replay besides the examples, one a line or an export',
    )
    .option('--worlds <n>', 'compare, publish: virtual plants to play under both (20, 40)')
    .option('--reason <text>', 'publish: why, although it names fewer faults rightly')
    .option('--plant <id>', 'show: the ready-made plant whose interview is drawn')
    .option('--language <id>', 'show: the language of the booklet (the first of the rule set)')
    .option('--chart', 'show: the wall chart alone, as SVG')
    .option('--pressure <unit>', 'show: bar, psi or kPa')
    .option('--volume <unit>', 'show: L, US gal or imp gal')
    .example('gaugewalk rules check rules/2026-12-01')
    .example('gaugewalk rules show 2026-12-01 --plant two-stages > booklet.html')
    .example('gaugewalk rules draft 2027-03-01 --from 2026-12-01')
    .action((name: string, what: readonly string[], options: Options) => {
      const action = actions[name];
      if (!action) {
        const known = Object.keys(actions);
        throw new InputError(
          `rules ${name}`,
          `there is no such action; ${suggestion(name, known, `use ${known.join(', ')}`)}`,
        );
      }
      const { takes, optional } = action;
      if (what.length > takes.length || (what.length < takes.length && !optional))
        throw new InputError(`rules ${name}`, `takes ${takes.join(' and ')}`);
      return action.run(io, what, options);
    });
}

/** A version by its folder, or by its date among the published ones. */
function folderOf(version: string): string {
  if (existsSync(version)) return version;
  const published = join(rulesFolder(), version);
  if (version !== '' && existsSync(published)) return published;
  const known = ruleSetVersions();
  throw new InputError(
    version,
    `there is no such folder or version; ${suggestion(version, known, `versions: ${known.join(', ')}`)}`,
  );
}

const read = (version: string): ReadRuleSet => readRuleSet(folderOf(version));
const newest = (): string => ruleSetVersions().at(-1) ?? '';

function worldsOf({ worlds }: Options, fallback: number): number {
  const n = Number(worlds ?? fallback);
  if (!Number.isInteger(n) || n < 0 || n > 100_000)
    throw new InputError('--worlds', 'a whole number from 0 to 100000');
  return n;
}

function check(io: Io, [folder = '']: readonly string[], { quick = false }: Options): number {
  const { toMend, text } = checkRules(folderOf(folder), { quick });
  io.out(`${text}\n`);
  return toMend.length > 0 ? 2 : 0;
}

async function compare(io: Io, [a = '', b = '']: readonly string[], options: Options) {
  const worlds = worldsOf(options, 20);
  const cases = options.cases === undefined ? [] : await readCases(io, options.cases);
  io.out(`${compareRules(read(a), read(b), { cases, worlds }).text}\n`);
  return 0;
}

function draft(io: Io, [date = '']: readonly string[], { from, to }: Options): number {
  const folder = to ?? join('drafts', date);
  makeDraft(date, folderOf(from ?? newest()), folder);
  io.out(
    `${folder} is a draft of ${date}. Change it, then\n  gaugewalk rules check ${folder}\n  gaugewalk rules try ${folder} CASE\n  gaugewalk rules publish ${folder}\n`,
  );
  return 0;
}

async function tryOn(io: Io, [folder = '', path = '']: readonly string[], { from }: Options) {
  const input = await readJson(io, path);
  const named = { name: path, input: inFile(path, () => parseCase(input)) };
  io.out(`${effectText(read(from ?? newest()), read(folder), named)}\n`);
  return 0;
}

function publishDraft(io: Io, [folder = '']: readonly string[], options: Options): number {
  const { from, to, reason = null, quick = false } = options;
  const { refused, text } = publish(folderOf(folder), {
    against: folderOf(from ?? newest()),
    into: to ?? rulesFolder(),
    worlds: worldsOf(options, 40),
    reason,
    quick,
  });
  io.out(`${text}\n`);
  if (refused === null) return 0;
  io.err(`${folder}: not published: ${refused}\n`);
  return 2;
}

async function learn(io: Io, [path = '']: readonly string[], { from }: Options): Promise<number> {
  const rules = read(from ?? newest());
  const cases = await readCases(io, path);
  const proven = cases.flatMap((each) => inFile(each.name, () => provenIn(each, rules)) ?? []);
  io.out(`${learnText(cases.length, proven, rules.ruleSet)}\n`);
  return 0;
}

function schema(io: Io, [name]: readonly string[]): number {
  if (name === undefined) {
    io.out(
      `${JSON.stringify(Object.fromEntries(schemaNames.map((each) => [each, jsonSchemaOf(each)])), null, 2)}\n`,
    );
    return 0;
  }
  const known = schemaNames.find((each) => each === name);
  if (!known)
    throw new InputError(name, `there is no such file; use one of ${schemaNames.join(', ')}`);
  io.out(`${JSON.stringify(jsonSchemaOf(known), null, 2)}\n`);
  return 0;
}
