import type { CAC } from 'cac';
import { InputError } from '../../shared/common/errors.ts';
import { lineOf, type Solution, solveLine } from '../../shared/hydraulics/line.ts';
import { m3sToLpm, paToBar } from '../../shared/hydraulics/units.ts';
import { type Assumed, resolvePlant } from '../../shared/plant/defaults.ts';
import type { Plant } from '../../shared/plant/schema.ts';
import {
  dropDigits,
  flowText,
  numberText,
  pressureFigure,
  pressureText,
  type Units,
} from '../../shared/ruleset/figures.ts';
import { givenPlant } from './given-plant.ts';
import type { Say } from './io.ts';
import type { Knowledge } from './knowledge.ts';
import { assumedPair } from './show/assumed.ts';
import { tableOf } from './table.ts';
import { type UnitOptions, unitsOf, withUnits } from './units.ts';
import type { World } from './world.ts';

/** `gaugewalk line --json`: what a clean plant should show. Pressures in bar at each part's own height. */
export interface LineResult {
  readonly running: Solution['running'];
  readonly flowLpm: number;
  readonly points: readonly { readonly after: string; readonly bar: number }[];
  readonly npshMarginM: number | null;
  readonly cycle: {
    readonly lowBar: number;
    readonly highBar: number;
    readonly onS: number;
    readonly offS: number;
  } | null;
  readonly assumed: readonly Assumed[];
}

/** Solves a clean plant with so many ordinary taps open (0: all shut). */
function lineResult(plant: Plant, open: number): LineResult {
  const { plant: resolved, assumed } = resolvePlant(plant);
  const solution = solveLine(lineOf(resolved), open === 0 ? 'closed' : { open });
  const { cycle } = solution;
  return {
    running: solution.running,
    flowLpm: rounded(m3sToLpm(solution.flowM3s)),
    points: solution.points.map(({ after, pa }) => ({ after, bar: rounded(paToBar(pa)) })),
    npshMarginM: solution.npshMarginM === null ? null : rounded(solution.npshMarginM),
    cycle: cycle && {
      lowBar: rounded(paToBar(cycle.lowPa)),
      highBar: rounded(paToBar(cycle.highPa)),
      onS: rounded(cycle.onS),
      offS: rounded(cycle.offS),
    },
    assumed,
  };
}

/** Enough digits for any use, few enough to read. */
function rounded(value: number): number {
  return Math.round(value * 1e4) / 1e4;
}

/** How many ordinary taps are open; one where nothing is said. */
function openTapsOf(given: unknown): number {
  const open = given === undefined ? 1 : Number(given);
  if (!Number.isInteger(open) || open < 0) {
    throw new InputError('--open', 'must be a whole number of taps, 0 for all shut');
  }
  return open;
}

interface LineOptions extends UnitOptions {
  readonly open?: unknown;
  readonly json?: boolean | undefined;
}

/** Runs `gaugewalk line PLANT [--open N] [--json]`. */
async function runLine(
  world: World,
  say: Say,
  language: string | undefined,
  given: string,
  options: LineOptions,
): Promise<void> {
  const units = unitsOf(options, language);
  const open = openTapsOf(options.open);
  const plant = await givenPlant(world, given, say);
  const result = lineResult(plant, open);
  world.out(
    options.json
      ? `${JSON.stringify(result, null, 2)}\n`
      : lineText(say, units, plant, result, open),
  );
}

/** The result for people: who runs, what flows, the pressure after every part, what was taken for granted. */
function lineText(say: Say, units: Units, plant: Plant, result: LineResult, open: number): string {
  const { cycle, npshMarginM } = result;
  const { language } = units;
  const pumped = plant.line.some((part) => part.kind === 'pump');
  const facts = [
    say('line-open', { n: open }),
    say(!pumped && result.running === 'off' ? 'line-still' : `line-running-${result.running}`),
    say('line-flow', { flow: flowText(result.flowLpm, units, 1) }),
    ...(cycle
      ? [
          say('line-cycle', {
            low: pressureText(cycle.lowBar, units),
            high: pressureText(cycle.highBar, units),
            onS: secondsText(cycle.onS, language),
            offS: secondsText(cycle.offS, language),
          }),
        ]
      : []),
    ...(pumped ? [suctionText(say, npshMarginM, language)] : []),
  ];
  const kinds = new Map(plant.line.map((part) => [part.id, kindText(say, part)]));
  const points = tableOf(
    [say('line-column-part'), say('line-column-kind'), units.pressure],
    result.points.map(({ after, bar }) => [
      after,
      kinds.get(after) ?? '',
      pressureFigure(bar, units, dropDigits),
    ]),
  );
  return `${plant.name}\n\n${facts.join('\n')}\n\n${points}\n${assumedText(say, units, result.assumed)}`;
}

function suctionText(say: Say, marginM: number | null, language: string | undefined): string {
  return marginM === null
    ? say('line-npsh-unknown')
    : say('line-npsh', { marginM: numberText(marginM, 1, language) });
}

function kindText(say: Say, part: Plant['line'][number]): string {
  return say(part.kind === 'filter' ? `kind-${part.medium}` : `kind-${part.kind}`);
}

function secondsText(seconds: number, language: string | undefined): string {
  return numberText(seconds, seconds < 10 ? 1 : 0, language);
}

/** What was left out of the file, so that nobody takes the numbers for more than they are. */
function assumedText(say: Say, units: Units, assumed: readonly Assumed[]): string {
  if (assumed.length === 0) return '';
  const rows = assumed.map((one) => [one.part, ...assumedPair(one, units)]);
  return `\n${say('heading-assumed')}\n${tableOf(null, rows)}`;
}

/** Adds `line` to the command line. */
export function registerLine(
  cli: CAC,
  world: World,
  say: Say,
  { language }: Pick<Knowledge, 'language'>,
): void {
  withUnits(cli.command('line <plant>', say('help-line')), say)
    .option('--open <taps>', say('help-line-open'))
    .option('--json', say('help-json'))
    .example('gaugewalk line plant.json')
    .example('gaugewalk line two-stages --open 2')
    .action((plant: string, options: LineOptions) => runLine(world, say, language, plant, options));
}
