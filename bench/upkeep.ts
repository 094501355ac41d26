import type { Random } from '../tests/seeded.ts';
import { anyOf, blocking, type Score, score, steady, usual } from '../tests/upkeep/trials.ts';
import { growths, type Sort } from '../tests/upkeep/virtual.ts';

/**
 * How far the forecasts can be trusted, over many virtual records: `node .bench/bench/upkeep.js [RUNS] [SEED] [NAME]`; with a
 * name only the sorts that begin so.
 */

const runs = Number(process.argv[2] ?? 500);
const seed = Number(process.argv[3] ?? 1);
const only = process.argv[4] ?? '';

function tell(name: string, sortOf: (random: Random) => Sort, times = runs): void {
  if (!name.startsWith(only)) return;
  const started = performance.now();
  const s: Score = score(seed, times, sortOf);
  const ms = (performance.now() - started) / times;
  const days = (value: number) => value.toFixed(1).padStart(6);
  process.stdout.write(
    `${name.padEnd(34)} held ${(100 * s.held).toFixed(1).padStart(5)} %  error ${days(s.medianErrorDays)} d  ` +
      `bias ${days(s.medianBiasDays)} d  interval ${days(s.medianIntervalDays)} d  undated ${s.undated}  ` +
      `false alarms ${s.falseAlarms}  ${ms.toFixed(0)} ms\n`,
  );
}

process.stdout.write(`${runs} runs of each, seed ${seed}, two months ahead\n`);
// Everything the task leaves open, mixed: law, control, division, how a pointer is read, how a flow errs, what loads.
tell('blocking laws, all kinds mixed', anyOf(blocking));
tell('steady, all kinds mixed', anyOf(steady));
const some = Math.ceil(runs / 5);
for (const [id, growth] of Object.entries(growths)) tell(`law ${id}`, anyOf([growth]), some);
tell('cake, division 0.2 bar', () => ({ ...usual, divisionBar: 0.2 }), some);
tell('cake, flow never measured', () => ({ ...usual, flowMeasured: 0 }), some);
tell('cake, four months ahead', () => ({ ...usual, daysAhead: 120 }), some);
