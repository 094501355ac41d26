import type { Figures } from '../src/assess/figures.ts';
import type { RunWanted } from '../src/assess/run.ts';

/** What docs/measured.md tells of an assess run: what, how much, unit, what is to be reached. */
export function assessFigures(
  {
    tool,
    own,
    calibration,
    questions,
    cost,
  }: Pick<Figures, 'tool' | 'own' | 'calibration' | 'questions' | 'cost'>,
  { worlds, seed, asking, audience }: Pick<RunWanted, 'worlds' | 'seed' | 'asking' | 'audience'>,
): [name: string, value: number, unit: string, wanted: string][] {
  const who = audience === 'each' ? '' : `, ${audience}`;
  const of = `of ${worlds} virtual plants, seed ${seed}${who}`;
  if (asking === 'all') {
    return [
      [`fault named first, everything asked, ${of}`, 100 * tool.first.share, '%', '≥ 85'],
      [
        `fault named first by the exact posterior, everything asked, ${of}`,
        100 * own.first.share,
        '%',
        '',
      ],
      [`fault among the first three, everything asked, ${of}`, 100 * tool.three.share, '%', ''],
      [`expected calibration error, everything asked, ${of}`, calibration.error, '', '≤ 0.05'],
    ];
  }
  return [
    [`fault named first, ${of}`, 100 * tool.first.share, '%', '≥ 75'],
    [`fault among the first three, ${of}`, 100 * tool.three.share, '%', '≥ 90'],
    [`expected calibration error, ${of}`, calibration.error, '', '≤ 0.05'],
    [`questions asked, median, ${of}`, questions.median, '', '≤ 14'],
    [`cost against the usual parts, ${of}`, 100 * cost.ofUsual, '%', '≤ 60'],
  ];
}
