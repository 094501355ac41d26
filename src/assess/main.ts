import { parseArgs } from 'node:util';
import { audiences } from '../../shared/case/answer.ts';
import { InputError } from '../../shared/common/errors.ts';
import { latestRuleSet, readRuleSet } from '../rules/read.ts';
import { figuresOf } from './figures.ts';
import { reportText } from './report.ts';
import { type RunWanted, run } from './run.ts';
import type { Score } from './score.ts';
import { worldText } from './show.ts';

const HELP = `npm run assess -- [options]
  --worlds N      virtual plants to play (2000)
  --seed S        whole number; the same seed plays the same worlds (1)
  --audience A    householder, agent, technician, or each in turn (each)
  --gauges N      none to four, or any (any)
  --ask HOW       next: what the tool asks; all: every question there is (next)
  --causes HOW    rates: as often as the generator's rates say; even: each as often as any other (rates)
  --rules DIR     a rule-set folder (the newest)
  --from N        index of the first world (0)
  --show          each world: faults, answers, ranking, plan
  --json          figures and every world's score as JSON`;

function wantedFrom(values: Record<string, string | boolean | undefined>): RunWanted {
  const whole = (name: string, fallback: number, most: number): number => {
    const given = values[name];
    if (given === undefined) return fallback;
    const n = Number(given);
    if (!Number.isInteger(n) || n < 0 || n > most)
      throw new InputError(`--${name}`, `a whole number up to ${most}`);
    return n;
  };
  const oneOf = <T extends string>(name: string, choices: readonly T[], fallback: T): T => {
    const given = values[name] ?? fallback;
    const found = choices.find((choice) => choice === given);
    if (!found) throw new InputError(`--${name}`, `one of ${choices.join(', ')}`);
    return found;
  };
  return {
    worlds: whole('worlds', 2000, 1e6),
    from: whole('from', 0, 1e6),
    seed: whole('seed', 1, 2 ** 31),
    gauges: values.gauges === undefined || values.gauges === 'any' ? null : whole('gauges', 0, 4),
    audience: oneOf('audience', [...audiences, 'each'], 'each'),
    asking: oneOf('ask', ['next', 'all'], 'next'),
    sampling: oneOf('causes', ['rates', 'even'], 'rates'),
  };
}

function main(args: readonly string[]): void {
  const text = { type: 'string' } as const;
  const { values } = parseArgs({
    args: [...args],
    options: {
      ...{
        worlds: text,
        seed: text,
        audience: text,
        gauges: text,
        ask: text,
        causes: text,
        rules: text,
        from: text,
      },
      json: { type: 'boolean' },
      show: { type: 'boolean' },

      help: { type: 'boolean' },
    },
  });
  if (values.help) {
    process.stdout.write(`${HELP}\n`);
    return;
  }
  const wanted = wantedFrom(values);
  const rules = values.rules === undefined ? latestRuleSet() : readRuleSet(values.rules);
  const scores: Score[] = [];
  for (const { world, interview, score } of run(rules, wanted)) {
    scores.push(score);
    if (values.show) process.stdout.write(`${worldText(world, interview, score)}\n`);
    if (process.stderr.isTTY && scores.length % 20 === 0)
      process.stderr.write(`\r${scores.length}/${wanted.worlds}`);
  }
  const figures = figuresOf(scores);
  if (values.json) {
    const confusion = Object.fromEntries(
      [...figures.confusion].map(([cause, named]) => [cause, Object.fromEntries(named)]),
    );
    process.stdout.write(
      `${JSON.stringify({ wanted, figures: { ...figures, confusion }, scores }, null, 1)}\n`,
    );
  } else {
    const { worlds, seed, audience, gauges, asking, sampling } = wanted;
    process.stdout.write(
      `${worlds} worlds, seed ${seed}, audience ${audience}, gauges ${gauges ?? 'any'}, asking ${asking}, causes by ${sampling}, rule set ${rules.ruleSet.head.version}\n\n${reportText(figures)}\n`,
    );
  }
}

try {
  main(process.argv.slice(2));
} catch (error) {
  const known = error instanceof InputError;
  if (!known && !(error instanceof TypeError && 'code' in error)) throw error;
  process.stderr.write(`${known ? `${error.where}: ` : ''}${(error as Error).message}\n`);
  process.exitCode = 2;
}
