import {
  evenFlow,
  flowController,
  normalFlow,
  pressureSwitch,
  type Score,
  score,
  usual,
} from '../tests/upkeep/trials.ts';
import { growths, type Sort } from '../tests/upkeep/virtual.ts';

/** How far the forecasts can be trusted, over many virtual records: `node .bench/bench/upkeep.js [RUNS] [SEED]`. */

const runs = Number(process.argv[2] ?? 500);
const seed = Number(process.argv[3] ?? 1);

function tell(name: string, sortOf: (run: number) => Sort, times = runs): void {
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
const steady = [growths.cake, growths.intermediate];
const flows = [evenFlow, normalFlow];
// Everything the task leaves open, mixed: law, control, how a pointer is read, how a flow errs.
tell('steady, all kinds mixed', (run) => ({
  ...usual,
  growth: steady[run % 2] ?? usual.growth,
  control: run % 4 < 2 ? pressureSwitch : flowController,
  sloppy: run % 8 < 4,
  flowError: flows[run % 16 < 8 ? 0 : 1] ?? evenFlow,
}));
for (const [id, growth] of Object.entries(growths)) {
  tell(id, () => ({ ...usual, growth }), Math.ceil(runs / 5));
}
tell('cake, read badly', () => ({ ...usual, sloppy: true }), Math.ceil(runs / 5));
tell('cake, division 0.2 bar', () => ({ ...usual, divisionBar: 0.2 }), Math.ceil(runs / 5));
tell('cake, flow never measured', () => ({ ...usual, flowMeasured: 0 }), Math.ceil(runs / 5));
tell('cake, four months ahead', () => ({ ...usual, daysAhead: 120 }), Math.ceil(runs / 5));
