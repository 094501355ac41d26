import type { Audience, Costs } from '../case/answer.ts';
import { inReaderUnits, type Units } from '../ruleset/figures.ts';
import type { Words } from '../ruleset/words.ts';
import { minutesOf, type Pricing } from './cost.ts';
import type { Judgement } from './judge.ts';
import { optionsOf } from './options.ts';
import { placesOf } from './place-shares.ts';
import type { PlannedJob, SegmentReading } from './result.ts';
import { NOTHING } from './signs.ts';
import { type JobTable, jobTable, type Step, strategyOf } from './strategy.ts';
import type { Worlds } from './worlds.ts';

const OVERDUE = 0.5;

export interface Plan {
  readonly table: JobTable;
  readonly jobs: readonly PlannedJob[];
}

/**
 * Jobs in the order of least expected cost. What is merely overdue comes before anybody is told to leave it, and before
 * the last resort: whoever is called should find it done.
 */
export function planFor(
  judgement: Judgement,
  worlds: Worlds,
  segments: readonly SegmentReading[],
  pricing: Pricing,
  costs: Costs | undefined,
  words: Words,
  audience: Audience,
  units: Units,
): Plan {
  const table = jobTable(worlds.list, optionsOf(judgement), pricing);
  const strategy = strategyOf(
    table,
    worlds.list.map((world) => world.probability),
    pricing,
  );
  const told = (step: Step): PlannedJob => {
    const { option } = step;
    const parts =
      step.cause === NOTHING
        ? mostRestrictive(judgement, segments)
        : likelierFirst(judgement, step.cause, option.parts);
    return {
      job: option.id,
      cause: step.cause,
      parts,
      by: option.job.by,
      minutes: minutesOf(option.job, option.parts.length),
      money: costs ? option.job.money * (option.job.perPart ? Math.max(1, parts.length) : 1) : null,
      cures: Number(step.cures.toFixed(4)),
      expectedCost: Number(step.expectedCost.toFixed(1)),
      lookFor: inReaderUnits(words.jobs[option.id]?.lookFor[audience] ?? '', units),
    };
  };
  const { steps } = strategy;
  const waits = ({ cause, option }: Step) => cause === NOTHING || option.job.lastResort === true;
  const first = steps.findIndex(waits);
  const at = first < 0 ? steps.length : first;
  return {
    table,
    jobs: [
      ...steps.slice(0, at).map(told),
      ...overdueJobs(judgement, table, pricing, told, steps),
      ...steps.slice(at).map(told),
    ],
  };
}

/** The parts of a job, the one that its cause most likely sits in first. */
function likelierFirst(judgement: Judgement, cause: string, parts: readonly string[]): string[] {
  const places = placesOf(judgement, cause);
  const chance = (part: string) => places.find(({ id }) => id === part)?.probability ?? 0;
  return parts.toSorted((a, b) => chance(b) - chance(a));
}

/** The cartridges of the segment that costs most: named when the advice is to leave them until their date. */
function mostRestrictive(judgement: Judgement, segments: readonly SegmentReading[]): string[] {
  const [most] = segments.filter((s) => !s.tooSmall).sort((a, b) => b.dropBar - a.dropBar);
  const filters = judgement.facts.plant.line
    .filter((part) => part.kind === 'filter')
    .map((part) => part.id);
  return most ? most.parts.filter((id) => filters.includes(id)) : [];
}

/** A lamp past its life is changed whatever else is found. */
function overdueJobs(
  judgement: Judgement,
  table: JobTable,
  pricing: Pricing,
  told: (step: Step) => PlannedJob,
  planned: readonly Step[],
): PlannedJob[] {
  const jobs: PlannedJob[] = [];
  for (const [cause, { probability }] of judgement.suspects.overdue) {
    if (probability < OVERDUE) continue;
    const options = table.options.filter((option) => option.cures.has(cause));
    const [best] = options.sort((a, b) => (b.cures.get(cause) ?? 0) - (a.cures.get(cause) ?? 0));
    if (!best || planned.some((step) => step.option.id === best.id)) continue;
    const cost = pricing.of(best.job, best.parts.length, pricing.there);
    jobs.push(
      told({ option: best, cause, cures: best.cures.get(cause) ?? 0, cost, expectedCost: cost }),
    );
  }
  return jobs;
}
