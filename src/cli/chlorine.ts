import type { CAC } from 'cac';
import { InputError } from '../../shared/common/errors.ts';
import { bypassedForChlorine, chlorineDose } from '../../shared/hydraulics/chlorine.ts';
import { numberText, significantText } from '../../shared/ruleset/figures.ts';
import type { Io, Say } from './io.ts';
import type { Knowledge } from './knowledge.ts';
import { wrap } from './show/wrap.ts';

interface ChlorineOptions {
  readonly litres?: unknown;
  readonly percent?: unknown;
  readonly mgPerLitre?: unknown;
  readonly json?: boolean;
}

/** Runs `gaugewalk chlorine --litres N --percent P --mg-per-litre T [--json]`. */
function runChlorine(
  io: Io,
  say: Say,
  language: string | undefined,
  options: ChlorineOptions,
): void {
  const litres = numberOf('--litres', options.litres);
  const percent = numberOf('--percent', options.percent);
  const mgPerLitre = numberOf('--mg-per-litre', options.mgPerLitre);
  const dose = doseOf(litres, percent, mgPerLitre);
  if (options.json) {
    io.out(`${JSON.stringify({ ...dose, bypass: bypassedForChlorine }, null, 2)}\n`);
    return;
  }
  const asGiven = (value: number) => numberText(value, 4, language, true);
  const lines = [
    say('chlorine-dose', {
      millilitres: significantText(dose.millilitres, 3, language),
      litres: asGiven(litres),
      percent: asGiven(percent),
      mgPerLitre: asGiven(mgPerLitre),
    }),
    say('chlorine-wait', { hours: asGiven(dose.waitMinutes / 60) }),
    say(dose.thenFlush ? 'chlorine-then-flush' : 'chlorine-drinkable'),
    say('chlorine-bypass', {
      media: bypassedForChlorine.map((medium) => say(`kind-${medium}`)).join(', '),
    }),
    say('chlorine-care'),
    say('local-codes'),
  ];
  io.out(`${lines.map((line) => wrap(line)).join('\n')}\n`);
}

function doseOf(litres: number, percent: number, mgPerLitre: number) {
  try {
    return chlorineDose(litres, percent, mgPerLitre);
  } catch (error) {
    if (error instanceof InputError) throw new InputError(`--${error.where}`, error.message);
    throw error;
  }
}

function numberOf(name: string, given: unknown): number {
  const value = typeof given === 'string' && given.trim() === '' ? Number.NaN : Number(given);
  if (given === undefined) throw new InputError(name, 'is missing: give a number above zero');
  if (Array.isArray(given)) throw new InputError(name, 'is given twice: give it once');
  if (!Number.isFinite(value)) throw new InputError(name, 'must be a number above zero');
  return value;
}

/** Adds `chlorine` to the command line. */
export function registerChlorine(
  cli: CAC,
  io: Io,
  say: Say,
  { language }: Pick<Knowledge, 'language'>,
): void {
  cli
    .command('chlorine', say('help-chlorine'))
    .option('--litres <litres>', say('help-chlorine-litres'))
    .option('--percent <percent>', say('help-chlorine-percent'))
    .option('--mg-per-litre <dose>', say('help-chlorine-dose'))
    .option('--json', say('help-json'))
    .action((options: ChlorineOptions) => runChlorine(io, say, language, options));
}
