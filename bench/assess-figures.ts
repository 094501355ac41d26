import type { Figures } from '../src/assess/figures.ts';

/** What docs/measured.md tells of an assess run: what, how much, unit, what is to be reached. */
export function assessFigures(
  {
    tool,
    calibration,
    questions,
    cost,
  }: Pick<Figures, 'tool' | 'calibration' | 'questions' | 'cost'>,
  worlds: number,
  seed: number,
): [name: string, value: number, unit: string, wanted: string][] {
  const of = `of ${worlds} virtual plants, seed ${seed}`;
  return [
    [`fault named first, ${of}`, 100 * tool.first.share, '%', '≥ 75'],
    [`fault among the first three, ${of}`, 100 * tool.three.share, '%', '≥ 90'],
    [`expected calibration error, ${of}`, calibration.error, '', '≤ 0.05'],
    [`questions asked, median, ${of}`, questions.median, '', '≤ 14'],
    [`cost against the usual parts, ${of}`, 100 * cost.ofUsual, '%', '≤ 60'],
  ];
}
