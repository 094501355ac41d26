import type { Day } from '../case/answer.ts';
import { factsOf } from '../case/facts.ts';
import { type Judgement, judge } from '../diagnosis/judge.ts';
import type { Prediction } from '../diagnosis/predict.ts';
import { predictReadings } from '../diagnosis/predict-readings.ts';
import type { World } from '../diagnosis/worlds.ts';
import { lineOf, solveLine } from '../hydraulics/line.ts';
import { paToBar } from '../hydraulics/units.ts';
import { resolvePlant } from '../plant/defaults.ts';
import type { Part, Plant } from '../plant/schema.ts';
import type { RuleSet } from '../ruleset/schema.ts';
import { evenNumber, normalQuantile } from './sampling.ts';

/** One place for a gauge and what it would tell. */
export interface GaugePlace {
  /** id of the part it stands behind */
  readonly after: string;
  /** information about what is wrong that a reading then gives more than one now, bits, over the plant's own fault rates */
  readonly gainBits: number;
  readonly rangeBar: number;
}

export interface NextGauge {
  /** the best first */
  readonly places: readonly GaugePlace[];
  /** the same for one gauge moved along capped ports at all of these places */
  readonly movedBits: number;
  /** a reading of the gauges there are */
  readonly nowBits: number;
}

/** Parts that cost no pressure: a gauge behind them shows what the one before them shows. */
const tees: readonly Part['kind'][] = [
  'gauge',
  'vessel',
  'drain',
  'relief-valve',
  'dosing-pump',
  'mains',
];
const NEW_ID = 'next-gauge';

/**
 * Where the next gauge would best tell apart what this plant cannot tell apart now: the expected information about cause
 * and place of a fault, from its gauges read with one tap open, for each place behind the pump.
 */
export function nextGauge(plant: Plant, rules: RuleSet, today: Day): NextGauge {
  const nowBits = informationBits(plant, rules, today);
  const spots = spotsOf(plant);
  const places = spots
    .map((at) => ({
      after: plant.line[at]?.id ?? '',
      gainBits: Math.max(0, informationBits(withGauges(plant, [at]), rules, today) - nowBits),
      rangeBar: rangeAt(plant, at),
    }))
    .sort((a, b) => b.gainBits - a.gainBits);
  const moved =
    spots.length > 0 ? informationBits(withGauges(plant, spots), rules, today) : nowBits;
  return { places, movedBits: Math.max(0, moved - nowBits), nowBits };
}

/** Indexes of the parts behind which a gauge would show something new. */
function spotsOf({ line }: Plant): number[] {
  const source = line.findLastIndex((part) => ['pump', 'suction', 'tank'].includes(part.kind));
  return line.flatMap((part, at) => {
    if (at < source || part.kind === 'house' || (tees.includes(part.kind) && at !== source))
      return [];
    const next = line.slice(at + 1).find((one) => one.kind === 'gauge' || !tees.includes(one.kind));
    return next?.kind === 'gauge' ? [] : [at];
  });
}

function withGauges(plant: Plant, spots: readonly number[]): Plant {
  const gauge = (at: number): Part => ({
    ...{ id: `${NEW_ID}-${at}`, kind: 'gauge', rangeBar: rangeAt(plant, at) },
  });
  return {
    ...plant,
    line: plant.line.flatMap((part, at) => (spots.includes(at) ? [part, gauge(at)] : [part])),
  };
}

/** Scales that gauges are made with, bar (EN 837-1:1996, preferred ranges). */
const RANGES = [1, 1.6, 2.5, 4, 6, 10, 16, 25] as const;

/** The smallest scale that holds the pressure at rest and keeps the working one in its lower two thirds. */
function rangeAt(plant: Plant, at: number): number {
  const line = lineOf(resolvePlant(plant).plant);
  const after = plant.line[at]?.id;
  const barAt = (open: { open: number } | 'closed') =>
    paToBar(solveLine(line, open).points.find((point) => point.after === after)?.pa ?? 0);
  const working = barAt({ open: 1 });
  const resting = barAt('closed');
  return RANGES.find((range) => range >= resting * 1.1 && range >= 1.5 * working) ?? 25;
}

const DRAWS = 16;

/** Expected information of one reading of all gauges about cause and place, in bits. */
function informationBits(plant: Plant, rules: RuleSet, today: Day): number {
  const judgement = judge(factsOf(plant, [], rules, { given: today, system: today }), rules);
  if (judgement.model.gauges.length === 0) return 0;
  const { worlds, labels } = singleFaults(judgement);
  const told = predictReadings({ open: 1 }, judgement, { list: worlds, hSets: [], qSets: [] });
  return mutualBits(worlds, labels, told);
}

/** Nothing wrong, or one hydraulic fault in one place at one severity, by the plant's own rates. */
function singleFaults({ candidates }: Judgement): { worlds: World[]; labels: string[] } {
  const labels = [''];
  const worlds: World[] = [{ causes: [], probability: 1, h: 0, q: 0, effects: [] }];
  for (const { suspect, coarse } of candidates) {
    const weights = coarse.reduce((sum, effect) => sum + effect.weight, 0);
    for (const effect of coarse) {
      labels.push(`${suspect.cause} ${suspect.part}`);
      const probability = (suspect.odds * effect.weight) / weights;
      worlds.push({ causes: [suspect.cause], probability, h: 0, q: 0, effects: [effect] });
    }
  }
  // Whoever reads gauges looks for a fault: that one is there is as likely as that none is.
  const faults = worlds.slice(1).reduce((sum, world) => sum + world.probability, 0);
  return {
    labels,
    worlds: worlds.map((world, i) => ({
      ...world,
      probability: i === 0 ? 0.5 : (0.5 * world.probability) / faults,
    })),
  };
}

/** Mutual information of label and reading: the mean of log p(reading | label)/p(reading) over even draws of readings. */
function mutualBits(
  worlds: readonly World[],
  labels: readonly string[],
  told: readonly (Prediction | null)[],
): number {
  const priors = new Map<string, number>();
  worlds.forEach(({ probability }, w) => {
    const label = labels[w] ?? '';
    priors.set(label, (priors.get(label) ?? 0) + probability);
  });
  let bits = 0;
  worlds.forEach(({ probability }, w) => {
    const prediction = told[w];
    if (!prediction || probability <= 0) return;
    const own = labels[w] ?? '';
    for (let draw = 0; draw < DRAWS; draw++) {
      const shown = prediction.mean.map(
        (mean, i) =>
          mean + (prediction.sd[i] ?? 0) * normalQuantile(evenNumber(w * DRAWS + draw, i)),
      );
      let all = 0;
      let same = 0;
      worlds.forEach((world, v) => {
        const chance = world.probability * densityOf(shown, told[v] ?? null);
        all += chance;
        if (labels[v] === own) same += chance;
      });
      bits += (probability / DRAWS) * Math.log2(same / (priors.get(own) ?? 1) / all);
    }
  });
  return bits;
}

function densityOf(shown: readonly number[], prediction: Prediction | null): number {
  if (!prediction) return 0;
  let log = 0;
  shown.forEach((value, i) => {
    const sd = prediction.sd[i] ?? 1;
    const z = (value - (prediction.mean[i] ?? 0)) / sd;
    log -= 0.5 * z * z + Math.log(sd);
  });
  return Math.exp(log);
}
