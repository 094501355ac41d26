import type { CAC } from 'cac';
import { daySchema } from '../../shared/case/answer.ts';
import { InputError } from '../../shared/common/errors.ts';
import { localDay } from '../../shared/common/local-time.ts';
import { roundPurchases } from '../../shared/upkeep/buying.ts';
import { addMonths, dayNumber, dayOf } from '../../shared/upkeep/days.ts';
import { latestUpkeepRules } from '../rules/upkeep.ts';
import { readReport } from './due.ts';
import type { Say } from './io.ts';
import type { Knowledge } from './knowledge.ts';
import { wrap } from './show/wrap.ts';
import { unitsOf } from './units.ts';
import type { World } from './world.ts';

export interface BuyOptions {
  readonly until?: string | undefined;
  readonly json?: boolean | undefined;
}

const MONTHS_AHEAD = 2;

/** `gaugewalk buy FILES… [--until DAY] [--json]`: what to order in time for a round of many plants. */
async function runBuy(
  world: World,
  knowledge: Knowledge,
  say: Say,
  paths: readonly string[],
  options: BuyOptions,
): Promise<number> {
  if (paths.length === 0) throw new InputError('buy', 'needs at least one record: name its file');
  const until = options.until ?? dayOf(addMonths(dayNumber(localDay(world.now())), MONTHS_AHEAD));
  if (!daySchema.safeParse(until).success) {
    throw new InputError('--until', 'write the day as YYYY-MM-DD');
  }
  const plants = [];
  for (const path of paths) {
    const { upkeep, report } = await readReport(
      world,
      knowledge,
      path,
      unitsOf({}, knowledge.language),
    );
    plants.push({ name: upkeep.plant.name, buy: report.buy });
  }
  const wanted = roundPurchases(plants, until, latestUpkeepRules().buying.carried);
  if (options.json) {
    world.out(`${JSON.stringify({ until, buy: wanted }, null, 2)}\n`);
    return 0;
  }
  const today = localDay(world.now());
  const lines = wanted.map(({ by, count, item, plants: names }) => {
    const holes = { by, count, item: knowledge.words.van[item] ?? item, plants: names.join(', ') };
    return wrap(say(by < today ? 'buy-round-late' : 'buy-round-line', holes), '  - ');
  });
  const title = say(lines.length > 0 ? 'buy-round' : 'buy-round-none', { until });
  world.out(`${[title, ...lines].join('\n')}\n`);
  return 0;
}

/** Adds `buy` to the command line. */
export function registerBuy(cli: CAC, world: World, say: Say, knowledge: Knowledge): void {
  cli
    .command('buy [...files]', say('help-buy'))
    .option('--until <day>', say('help-buy-until'))
    .option('--json', say('help-json'))
    .example('gaugewalk buy north.json south.json --until 2027-01-31')
    .action((files: string[], options: BuyOptions) =>
      runBuy(world, knowledge, say, files, options),
    );
}
