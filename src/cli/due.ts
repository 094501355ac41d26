import type { CAC } from 'cac';
import { InputError } from '../../shared/common/errors.ts';
import { outlookOf } from '../../shared/upkeep/due.ts';
import { parseUpkeep, type Upkeep } from '../../shared/upkeep/history.ts';
import { type DueReport, reportOf } from '../../shared/upkeep/report.ts';
import { calendarText } from '../history/calendar.ts';
import { latestUpkeepRules } from '../rules/upkeep.ts';
import { inFile } from './case-file.ts';
import type { Say } from './io.ts';
import { nameOf, readJson } from './json-file.ts';
import type { Knowledge } from './knowledge.ts';
import { wrap } from './show/wrap.ts';
import { tableOf } from './table.ts';
import { dayOf, type World } from './world.ts';

export interface DueOptions {
  readonly json?: boolean | undefined;
  readonly ics?: boolean | undefined;
}

/** `gaugewalk due FILE [--json | --ics]`: gives the exit code. */
export async function runDue(
  world: World,
  knowledge: Knowledge,
  say: Say,
  path: string,
  options: DueOptions,
): Promise<number> {
  if (options.json && options.ics) {
    throw new InputError('--json --ics', 'one of them at a time: leave one out');
  }
  const input = await readJson(world, path);
  const { rules, words } = knowledge;
  const { upkeep, report } = inFile(nameOf(path), () => {
    const upkeep = parseUpkeep(input, rules, dayOf(world.now()));
    const tables = latestUpkeepRules();
    return { upkeep, report: reportOf(outlookOf(upkeep, tables), tables, rules, words) };
  });
  if (options.json) world.out(`${JSON.stringify(report, null, 2)}\n`);
  else if (options.ics) world.out(calendarText(upkeep.plant.name, report, words));
  else world.out(dueText(say, knowledge, upkeep, report));
  return 0;
}

/** The list for people: dates with their intervals, then why, what the record shows, what to order, what it costs. */
export function dueText(
  say: Say,
  { words }: Knowledge,
  { plant, today }: Upkeep,
  report: DueReport,
): string {
  const paragraphs = [say('due-title', { name: plant.name, today })];
  if (report.due.length === 0) paragraphs.push(wrap(say('due-none')));
  else {
    const head = ['due-column-on', 'due-column-between', 'due-column-part', 'due-column-because'];
    const rows = report.due.map(({ on, from, to, part, because, first }) => [
      on,
      from === to ? '' : `${from} – ${to}`,
      part,
      `${say(`due-because-${because}`)}${first ? ` (${say('due-first')})` : ''}`,
    ]);
    paragraphs.push(
      tableOf(
        head.map((key) => say(key)),
        rows,
      ),
    );
    paragraphs.push(
      report.due.map(({ part, on, text }) => wrap(`${part}, ${on}: ${text}`, '  - ')).join('\n'),
    );
  }
  if (report.remarks.length > 0) {
    paragraphs.push(report.remarks.map(({ text }) => wrap(text, '  - ')).join('\n'));
  }
  if (report.buy.length > 0) {
    const lines = report.buy.map(({ by, part, items }) =>
      wrap(
        say('buy-line', { by, part, items: items.map((id) => words.van[id] ?? id).join(', ') }),
        '  - ',
      ),
    );
    paragraphs.push([say('buy-title'), ...lines].join('\n'));
  }
  if (report.spend.length > 0) paragraphs.push(spendText(say, report));
  return `${[...paragraphs, wrap(say('due-local'))].join('\n\n')}\n`;
}

function spendText(say: Say, { spend, currency }: DueReport): string {
  const cell = (value: number | null) => (value === null ? '–' : value.toFixed(0));
  const head = ['part', 'date', 'drop', 'forecast'].map((name) => say(`spend-column-${name}`));
  const rows = spend.map((one) => [
    one.part,
    cell(one.byDate),
    cell(one.atFixedDrop),
    cell(one.byForecast),
  ]);
  const fails = spend
    .filter(({ failsDays }) => failsDays !== null && failsDays > 0)
    .map(({ part, failsDays }) => wrap(say('spend-fails', { part, days: failsDays ?? 0 })));
  return [say('spend-title', { currency }), tableOf(head, rows), ...fails].join('\n');
}

/** Adds `due` to the command line. */
export function registerDue(cli: CAC, world: World, say: Say, knowledge: Knowledge): void {
  cli
    .command('due <file>', say('help-due'))
    .option('--json', say('help-json'))
    .option('--ics', say('help-due-ics'))
    .example('gaugewalk due plant.json')
    .example('gaugewalk due plant.json --ics > upkeep.ics')
    .action((file: string, options: DueOptions) => runDue(world, knowledge, say, file, options));
}
