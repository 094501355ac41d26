import { type CAC, type Command, cac } from 'cac';
import { InputError } from '../../shared/common/errors.ts';
import { named } from '../../shared/common/named.ts';
import { suggestion } from '../../shared/ruleset/nearest.ts';
import { loadWork } from '../../shared/work/read.ts';
import { loadWorkWords } from '../../shared/work/words.ts';
import { latestRuleSet, type ReadRuleSet } from '../rules/read.ts';
import { registerAsk } from './ask.ts';
import { registerBuy } from './buy.ts';
import { registerChlorine } from './chlorine.ts';
import { registerDiagnose } from './diagnose.ts';
import { registerDue } from './due.ts';
import { type Knowledge, sayIn } from './knowledge.ts';
import { registerLine } from './line.ts';
import { registerRound } from './round.ts';
import { registerRules } from './rules.ts';
import { registerServe } from './serve.ts';
import { version } from './version.ts';
import { registerWork } from './work.ts';
import { processWorld, type World } from './world.ts';

const LANGUAGE = 'en';
const LANGUAGE_OPTION = '--language';

/** Runs one command line. Resolves to the exit code: 0 with a result, 2 when the input cannot be used. */
export async function main(
  args: readonly string[],
  world: World = processWorld(),
  readRules: (language: string) => ReadRuleSet = latestRuleSet,
): Promise<number> {
  try {
    const { language, rest } = languageIn(args);
    const cli = commandLine(world, readRules(language), language);
    parse(cli, rest);
    if (!cli.matchedCommand) return withoutCommand(cli);
    refuseUnknownOptions(cli, cli.matchedCommand);
    const code: unknown = await cli.runMatchedCommand();
    return typeof code === 'number' ? code : 0;
  } catch (error) {
    world.err(`${messageOf(error).replaceAll(/\s+/g, ' ').trim()}\n`);
    return 2;
  } finally {
    world.close();
  }
}

/** Every command there is, in the order in which a supply is looked after. */
function commandLine(world: World, { ruleSet, words, files }: ReadRuleSet, language: string): CAC {
  const spoken = named(words, language);
  if (!spoken) {
    const there = ruleSet.head.languages.join(', ');
    throw new InputError(LANGUAGE_OPTION, `no words in "${language}"; those there: ${there}`);
  }
  const knowledge: Knowledge = {
    rules: ruleSet,
    work: loadWork(files),
    words: spoken,
    language,
  };
  const say = sayIn(spoken);
  const cli = cac('gaugewalk');
  registerAsk(cli, world, say, knowledge);
  registerDiagnose(cli, world, say, knowledge);
  registerWork(cli, world, {
    ...knowledge,
    workWords: loadWorkWords(files, language),
  });
  registerDue(cli, world, say, knowledge);
  registerRound(cli, world, say, knowledge);
  registerBuy(cli, world, say, knowledge);
  registerLine(cli, world, say, knowledge);
  registerChlorine(cli, world, say, knowledge);
  registerRules(cli, world);
  registerServe(cli, world, say);
  cli.option(`${LANGUAGE_OPTION} <code>`, say('help-language'));
  cli.version(version());
  cli.help((sections) =>
    sections
      .filter(({ title }) => !title?.startsWith('For more info'))
      .map((section) => ({ ...section, body: eachOptionOnce(section.body) })),
  );
  return cli;
}

/** Help lists what every command has after what this one has: an option of both is told as this one's. */
function eachOptionOnce(body: string): string {
  const told = new Set<string>();
  const isNew = (line: string) => {
    const [option] = /--[\w-]+/.exec(line.trimStart().startsWith('-') ? line : '') ?? [];
    if (option === undefined) return true;
    const known = told.has(option);
    told.add(option);
    return !known;
  };
  return body.split('\n').filter(isNew).join('\n');
}

/** The words are needed before the parser: every command but `rules`, which has its own, speaks the language asked for. */
function languageIn(args: readonly string[]): { language: string; rest: readonly string[] } {
  const at = args.findIndex(
    (arg) => arg === LANGUAGE_OPTION || arg.startsWith(`${LANGUAGE_OPTION}=`),
  );
  if (at < 0 || args[0] === 'rules') return { language: LANGUAGE, rest: args };
  const [, joined] = args[at]?.split('=') ?? [];
  const rest = args.filter((_, i) => i !== at && (joined !== undefined || i !== at + 1));
  return { language: joined ?? args[at + 1] ?? '', rest };
}

/**
 * The parser takes a lone hyphen for an option without a name, so standard input goes past it by another; and a figure
 * below zero for options named by its digits, so that goes joined to the option before it.
 */
function parse(cli: CAC, args: readonly string[]): void {
  const standardInput = 'standard-input:';
  const passed: string[] = [];
  for (const arg of args) {
    const before = passed.at(-1);
    if (/^-\.?\d/.test(arg) && before?.startsWith('--')) passed[passed.length - 1] += `=${arg}`;
    else passed.push(arg === '-' ? standardInput : arg);
  }
  cli.parse(['node', 'gaugewalk', ...passed], { run: false });
  cli.args = cli.args.map((arg) => (arg === standardInput ? '-' : arg));
}

/** Help was asked for and given; or nothing was typed; or no such command is known. */
function withoutCommand(cli: CAC): number {
  const word = cli.args[0];
  if (cli.options.help || cli.options.version) return 0;
  if (word !== undefined) {
    const known = cli.commands.map(({ name }) => name);
    const mend = suggestion(word, known, `those there: ${known.join(', ')}`);
    throw new InputError(word, `there is no such command; ${mend}`);
  }
  const option = Object.keys(cli.options).find((name) => name !== '--');
  if (option !== undefined) {
    throw new InputError(typed(option), 'a command must stand before it; see gaugewalk --help');
  }
  cli.outputHelp();
  return 0;
}

/** An option that the command does not have, with the one that was meant. */
function refuseUnknownOptions(cli: CAC, command: Command): void {
  const known = command.options.flatMap(({ names }) => names);
  for (const name of Object.keys(cli.options)) {
    if (name === '--' || known.includes(name)) continue;
    const otherwise = `see gaugewalk ${command.name} --help`;
    const mend = suggestion(typed(name), known.map(typed), otherwise);
    throw new InputError(typed(name), `gaugewalk ${command.name} has no such option; ${mend}`);
  }
}

/** An option as it is typed: camel case comes from the parser. */
function typed(option: string): string {
  const name = option.replaceAll(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);
  return option.length === 1 ? `-${name}` : `--${name}`;
}

/** What was wrong and the way out; never a stack trace. */
function messageOf(error: unknown): string {
  if (error instanceof InputError) return `${error.where}: ${error.message}`;
  const message = error instanceof Error ? error.message : String(error);
  if (error instanceof Error && error.name === 'CACError') {
    return `gaugewalk: ${message.replaceAll('`', '"')}; see gaugewalk --help`;
  }
  return `gaugewalk: something went wrong that should not (${message}); please report it with the command and the file`;
}
