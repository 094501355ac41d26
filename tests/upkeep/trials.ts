import { dayNumber } from '../../shared/upkeep/days.ts';
import { outlookOf } from '../../shared/upkeep/due.ts';
import { parseUpkeep } from '../../shared/upkeep/history.ts';
import { loadUpkeepRules } from '../../shared/upkeep/rules.ts';
import { latestRuleSet } from '../../src/rules/read.ts';
import { type Random, seeded } from '../seeded.ts';
import { type Growth, growths, normal, type Sort, virtualRecord } from './virtual.ts';

const { ruleSet, files } = latestRuleSet();
const rules = loadUpkeepRules(files, ruleSet);

/** How many forecasts of a sort of record held the true date, and how far off they were, in days. */
export interface Score {
  readonly runs: number;
  /** share of the runs whose 80 % interval held the true date */
  readonly held: number;
  /** runs without a date, or with a change of pace told where there was none */
  readonly undated: number;
  readonly falseAlarms: number;
  readonly medianErrorDays: number;
  readonly medianBiasDays: number;
  readonly medianIntervalDays: number;
}

export const pressureSwitch = { kind: 'pressure-switch', cutInBar: 2, cutOutBar: 3.5 };
export const flowController = { kind: 'flow-controller', startBar: 1.5, minFlowLpm: 1.5 };

/** ±7 % evenly, or with ±7 % as two standard deviations. */
const evenFlow = (random: Random) => 0.14 * (random() - 0.5);
const normalFlow = (random: Random) => 0.035 * normal(random);

/** What the issue asks for: gauges of class 1.6 on 0–6 bar read to half a division, flow ±7 %, two months ahead. */
export const usual: Sort = {
  growth: growths.cake,
  control: pressureSwitch,
  divisionBar: 0.1,
  sloppy: false,
  flowError: evenFlow,
  flowMeasured: 1,
  daysAhead: 60,
  lastsDays: [180, 730],
  loads: 'sed-1',
  lifeBefore: false,
  beside: false,
};

const oneOf = <T>(random: Random, choices: readonly [T, ...T[]]): T =>
  choices[Math.floor(random() * choices.length)] ?? choices[0];

/** Records of the usual sort with everything that it leaves open drawn by chance. */
export const anyOf =
  (laws: readonly [Growth, ...Growth[]]) =>
  (random: Random): Sort => ({
    ...usual,
    growth: oneOf(random, laws),
    control: oneOf<object>(random, [pressureSwitch, flowController]),
    divisionBar: oneOf(random, [0.1, 0.2]),
    sloppy: random() < 0.5,
    flowError: oneOf(random, [evenFlow, normalFlow]),
    loads: oneOf(random, ['sed-1', 'carbon-1']),
    lifeBefore: random() < 1 / 3,
    beside: random() < 1 / 4,
  });

/** The four blocking laws; and those by which resistance grows steadily, by the same amount or the same factor a month. */
export const blocking = [
  growths.cake,
  growths.intermediate,
  growths.standard,
  growths.complete,
] as const;
export const steady = [growths.cake, growths.intermediate] as const;

export function score(seed: number, runs: number, sortOf: (random: Random) => Sort): Score {
  const random = seeded(seed);
  let [held, undated, falseAlarms] = [0, 0, 0];
  const errors: number[] = [];
  const intervals: number[] = [];
  for (let run = 0; run < runs; run++) {
    const sort = sortOf(random);
    const { record, truth } = virtualRecord(random, sort);
    const outlook = outlookOf(parseUpkeep(record, ruleSet, '2026-01-01'), rules);
    if (outlook.stages.some((stage) => stage.pace !== null)) falseAlarms += 1;
    const entry = outlook.due.find(
      (one) => one.part === sort.loads && one.because === 'resistance',
    );
    if (!entry) {
      undated += 1;
      continue;
    }
    const day = Math.floor(truth);
    const [from, on, to] = [entry.from, entry.on, entry.to].map(dayNumber);
    if ((from ?? 0) <= day && day <= (to ?? 0)) held += 1;
    errors.push((on ?? 0) - day);
    intervals.push((to ?? 0) - (from ?? 0));
  }
  return {
    ...{ runs, held: held / runs, undated, falseAlarms },
    medianErrorDays: middle(errors.map(Math.abs)),
    medianBiasDays: middle(errors),
    medianIntervalDays: middle(intervals),
  };
}

const middle = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;
