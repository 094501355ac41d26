import { InputError } from '../../../shared/common/errors.ts';
import { fernhollow } from '../../../shared/plant/fernhollow.ts';
import { readyMade } from '../../../shared/plant/ready-made.ts';
import type { Plant } from '../../../shared/plant/schema.ts';
import { suggestion } from '../../../shared/ruleset/nearest.ts';
import { CHART_COLUMNS, CHART_ROWS, chartSvg, sheetOf } from '../../rules/booklet/chart.ts';
import { bookletHtml } from '../../rules/booklet/page.ts';
import { interviewSheets } from '../../rules/booklet/tree.ts';
import type { ReadRuleSet } from '../../rules/read.ts';
import type { Io } from '../io.ts';
import { type UnitOptions, unitsOf } from '../units.ts';

export interface ShowOptions extends UnitOptions {
  readonly plant?: string;
  readonly language?: string;
  readonly chart?: boolean;
}

const plants: Readonly<Record<string, Plant>> = {
  ...Object.fromEntries(readyMade.map(({ id, plant }) => [id, plant])),
  fernhollow,
};

/** Writes a version as a booklet (HTML), or the wall chart for one plant alone (SVG). */
export function show(io: Io, read: ReadRuleSet, options: ShowOptions): number {
  const { plant, language, chart } = options;
  const { ruleSet: rules } = read;
  const spoken = language ?? rules.head.languages[0] ?? '';
  const words = read.words[spoken];
  if (!words) {
    const known = rules.head.languages;
    throw new InputError('--language', `${spoken} has no words; ${suggestion(spoken, known, '')}`);
  }
  if (chart && plant === undefined)
    throw new InputError('--chart', `needs --plant, one of ${Object.keys(plants).join(', ')}`);
  const drawn = plant === undefined ? null : plants[plant];
  if (drawn === undefined) {
    const known = Object.keys(plants);
    const mend = suggestion(plant ?? '', known, `use one of ${known.join(', ')}`);
    throw new InputError('--plant', `there is no ready-made plant "${plant}"; ${mend}`);
  }
  const name = words.phrases[`plant-${plant}`] ?? drawn?.name ?? '';
  const wanted = { rows: CHART_ROWS, columns: CHART_COLUMNS };
  const booklet = { rules, words, language: spoken, units: unitsOf(options, spoken) };
  const sheets = drawn
    ? interviewSheets(drawn, rules, words, wanted).map((tree) => sheetOf(tree, booklet, name))
    : [];
  if (chart) io.out(`${chartSvg(sheets)}\n`);
  else io.out(bookletHtml({ ...booklet, charts: sheets.map((sheet) => chartSvg([sheet])) }));
  return 0;
}
