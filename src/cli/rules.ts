import type { CAC } from 'cac';
import { InputError } from '../../shared/common/errors.ts';
import { suggestion } from '../../shared/ruleset/nearest.ts';
import { checkRules } from '../rules/check.ts';
import type { Io } from './io.ts';

/** What can be done with a rule set: each takes its folder and gives the exit code. */
const actions: Readonly<Record<string, (folder: string, io: Io) => number>> = { check };

/** `gaugewalk rules check DIR`: exit 0 with nothing to mend, 2 with findings. */
export function registerRules(cli: CAC, io: Io): void {
  cli
    .command('rules <action> <folder>', 'check a rule set: schema, ids, missing words')
    .example('gaugewalk rules check rules/2026-12-01')
    .action((name: string, folder: string): number => {
      const action = actions[name];
      if (action) return action(folder, io);
      const known = Object.keys(actions);
      throw new InputError(
        `rules ${name}`,
        `there is no such action; ${suggestion(name, known, `use ${known.join(', ')}`)}`,
      );
    });
}

function check(folder: string, io: Io): number {
  const { findings, text } = checkRules(folder);
  io.out(`${text}\n`);
  return findings.length > 0 ? 2 : 0;
}
