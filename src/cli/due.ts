import type { CAC } from 'cac';
import { InputError } from '../../shared/common/errors.ts';
import { localDay } from '../../shared/common/local-time.ts';
import { gaugeDigits, looseText, numberText, type Units } from '../../shared/ruleset/figures.ts';
import { calendarText } from '../../shared/upkeep/calendar.ts';
import { NO_END } from '../../shared/upkeep/days.ts';
import { outlookOf } from '../../shared/upkeep/due.ts';
import { parseUpkeep, type Upkeep } from '../../shared/upkeep/history.ts';
import { type NextGauge, nextGauge } from '../../shared/upkeep/next-gauge.ts';
import { type DueReport, reportOf } from '../../shared/upkeep/report.ts';
import { latestUpkeepRules } from '../rules/upkeep.ts';
import { inFile } from './case-file.ts';
import type { Say } from './io.ts';
import { nameOf, readJson } from './json-file.ts';
import type { Knowledge } from './knowledge.ts';
import { wrap } from './show/wrap.ts';
import { tableOf } from './table.ts';
import { type UnitOptions, unitsOf, withUnits } from './units.ts';
import type { World } from './world.ts';

export interface DueOptions extends UnitOptions {
  readonly json?: boolean | undefined;
  readonly ics?: boolean | undefined;
  readonly nextGauge?: boolean | undefined;
}

/** `gaugewalk due FILE [--json | --ics]`: gives the exit code. */
async function runDue(
  world: World,
  knowledge: Knowledge,
  say: Say,
  path: string,
  options: DueOptions,
): Promise<number> {
  if (options.json && options.ics) {
    throw new InputError('--json --ics', 'one of them at a time: leave one out');
  }
  const units = unitsOf(options, knowledge.language);
  const { upkeep, report } = await readReport(world, knowledge, path, units);
  const gauge = options.nextGauge
    ? nextGauge(upkeep.plant, knowledge.rules, upkeep.today)
    : undefined;
  if (options.json) {
    const result = gauge ? { ...report, nextGauge: gauge } : report;
    world.out(`${JSON.stringify(result, null, 2)}\n`);
  } else if (options.ics) {
    world.out(calendarText(upkeep.plant.name, report, knowledge.words));
  } else {
    world.out(dueText(say, knowledge, upkeep, report));
    if (gauge) world.out(`\n${gaugeText(say, gauge, units)}\n`);
  }
  return 0;
}

/**
 * A record's due list.
 * @throws InputError naming the file and the place
 */
export async function readReport(
  world: World,
  { rules, words }: Knowledge,
  path: string,
  units: Units,
): Promise<{ readonly upkeep: Upkeep; readonly report: DueReport }> {
  const input = await readJson(world, path);
  return inFile(nameOf(path), () => {
    const upkeep = parseUpkeep(input, rules, localDay(world.now()));
    const tables = latestUpkeepRules();
    return { upkeep, report: reportOf(outlookOf(upkeep, tables), tables, rules, words, units) };
  });
}

const PLACES_TOLD = 3;

function gaugeText(say: Say, { places, movedBits, nowBits }: NextGauge, units: Units): string {
  const figure = (bits: number) => numberText(bits, 2, units.language);
  const useful = places.filter(({ gainBits }) => gainBits >= 0.005).slice(0, PLACES_TOLD);
  const now = wrap(say('gauge-now', { bits: figure(nowBits) }), '  ');
  if (useful.length === 0)
    return [wrap(say('gauge-title')), now, `  ${say('gauge-none')}`].join('\n');
  const lines = useful.map(({ after, rangeBar, gainBits }) =>
    wrap(
      say('gauge-where', {
        ...{ after, bits: figure(gainBits) },
        range: looseText(rangeBar, units, gaugeDigits),
      }),
      '  - ',
    ),
  );
  const moved = wrap(say('gauge-moved', { bits: figure(movedBits) }), '  - ');
  return [wrap(say('gauge-title')), now, ...lines, moved].join('\n');
}

/** The list for people: dates with their intervals, then why, what the record shows, what to order, what it costs. */
function dueText(
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
      from === to ? '' : `${from} – ${to === NO_END ? '…' : to}`,
      part,
      [
        say(`due-because-${because}`),
        ...(on < today ? [`(${say('due-late')})`] : []),
        ...(first ? [`(${say('due-first')})`] : []),
      ].join(' '),
    ]);
    paragraphs.push(
      tableOf(
        head.map((key) => say(key)),
        rows,
      ).trimEnd(),
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
        say(by < today ? 'buy-late' : 'buy-line', {
          ...{ by, part, items: items.map((id) => words.van[id] ?? id).join(', ') },
        }),
        '  - ',
      ),
    );
    paragraphs.push([say('buy-title'), ...lines].join('\n'));
  }
  if (report.spend.length > 0) paragraphs.push(spendText(say, report));
  return `${[...paragraphs, wrap(say('due-local'))].join('\n\n')}\n`;
}

function spendText(say: Say, { spend, currency }: DueReport): string {
  const cell = (value: number | null) => (value === null ? '–' : String(Math.round(value)));
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
  return [say('spend-title', { currency }), tableOf(head, rows).trimEnd(), ...fails].join('\n');
}

/** Adds `due` to the command line. */
export function registerDue(cli: CAC, world: World, say: Say, knowledge: Knowledge): void {
  withUnits(cli.command('due <file>', say('help-due')), say)
    .option('--json', say('help-json'))
    .option('--ics', say('help-due-ics'))
    .option('--next-gauge', say('help-due-next-gauge'))
    .example('gaugewalk due plant.json')
    .example('gaugewalk due plant.json --ics > upkeep.ics')
    .action((file: string, options: DueOptions) => runDue(world, knowledge, say, file, options));
}
