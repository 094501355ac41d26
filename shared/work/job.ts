import type { Audience } from '../case/answer.ts';
import { checkPartOfJob, partsInPlace, partsOfJob } from '../case/places.ts';
import { InputError } from '../common/errors.ts';
import { named } from '../common/named.ts';
import { type Case, diagnose } from '../diagnosis/diagnose.ts';
import type { Result } from '../diagnosis/result.ts';
import type { Plant } from '../plant/schema.ts';
import { parsePlant } from '../plant/schema.ts';
import type { Units } from '../ruleset/figures.ts';
import type { DrinkingHazard } from '../ruleset/hazard.ts';
import { suggestion } from '../ruleset/nearest.ts';
import type { RuleSet } from '../ruleset/schema.ts';
import type { Words } from '../ruleset/words.ts';
import { adviceIn } from './advice.ts';
import { featuresOf, isAtPump, targetIndex } from './features.ts';
import { pressuresOf } from './holes.ts';
import { scalesOf } from './scales.ts';
import type { WorkRules } from './schema.ts';
import { search } from './search.ts';
import { sheetOf } from './sheet.ts';
import type { WorkContext } from './state.ts';

/** What is known of work in one language: the rule set and its words, and its job sheets. */
export interface WorkKnowledge {
  readonly rules: RuleSet;
  readonly words: Words;
  readonly work: WorkRules;
}

/** One job on one case, as it stands before anything is done. */
export interface JobAtHand {
  readonly theCase: Case;
  readonly plant: Plant;
  readonly audience: Audience;
  readonly before: Result;
  /** what the texts of results are told in */
  readonly units: Units;
  readonly context: WorkContext;
  /** where in the line it is done; `part` is its id */
  readonly index: number;
  readonly part: string | null;
  /** other parts that the same job is to be done on afterwards, the likelier first */
  readonly nextParts: readonly string[];
  /** what the job is to end, where the plan names it */
  readonly cause: string | null;
  readonly advice: readonly DrinkingHazard[];
}

export interface Wanted {
  readonly job?: string | undefined;
  /** the parts to do it on, one after the other; those of the plan when left out */
  readonly parts?: readonly string[] | undefined;
  /** what it is to end, where the plan no longer names the job */
  readonly cause?: string | null;
}

/**
 * Opens the first job of the case's plan, or the one wanted. Null when the plan is empty.
 * @param day the calendar day used when the case carries none
 * @throws InputError for a job or part that is not there
 */
export function openJob(
  theCase: Case,
  wanted: Wanted,
  { rules, words, work }: WorkKnowledge,
  day: string,
  units: Units,
): JobAtHand | null {
  const before = diagnose(theCase, rules, words, day, units);
  const planned = before.plan.find(({ job }) => wanted.job === undefined || job === wanted.job);
  const job = wanted.job ?? planned?.job;
  if (job === undefined) return null;
  const table = named(work.jobs, job);
  if (!table) {
    throw new InputError(
      'job',
      `there is no job sheet "${job}"; ${suggestion(job, Object.keys(work.jobs), 'gaugewalk rules show lists them')}`,
    );
  }
  const plant = plantOf(theCase);
  if (placesFor(job, plant, { rules, work }).length === 0)
    throw new InputError('job', `this plant has nothing that ${job} could be done on`);
  const missing = wanted.parts?.find((part) => !plant.line.some(({ id }) => id === part));
  if (missing !== undefined) {
    const there = plant.line.map(({ id }) => id).join(', ');
    throw new InputError('part', `no part "${missing}"; there are ${there}`);
  }
  for (const part of wanted.parts ?? []) checkPartOfJob(job, part, rules, plant, 'part');
  const [first, ...later] = [...new Set([...(wanted.parts ?? []), ...(planned?.parts ?? [])])];
  const index = targetIndex(plant, table.at, first);
  return {
    ...{ theCase, plant, before, index, units },
    audience: theCase.audience ?? 'householder',
    context: {
      sheet: sheetOf(work, job, featuresOf(plant, index)),
      conditions: work.conditions,
      pressures: pressuresOf(plant),
      scales: scalesOf(plant),
    },
    part: plant.line[index]?.id ?? null,
    nextParts: rules.jobs[job]?.perPart ? later : [],
    cause: planned?.cause ?? wanted.cause ?? null,
    advice: adviceIn(before, rules),
  };
}

/** Parts of the plant that a job can be done on; none: it is no job for this plant. */
export function placesFor(
  job: string,
  plant: Plant,
  { rules, work }: Pick<WorkKnowledge, 'rules' | 'work'>,
): readonly string[] {
  const at = work.jobs[job]?.at ?? 'plant';
  if (isAtPump(at) && !plant.line.some(({ kind }) => kind === 'pump')) return [];
  const there = partsInPlace(at, plant);
  const table = rules.jobs[job];
  // what is done part by part needs such a part; the rest finds its place by what it cures
  return there.length === 0 && table && !table.perPart ? partsOfJob(table, rules, plant) : there;
}

/**
 * The rule set is proved over all kinds of plant; this plays the job through on this very plant before anybody begins.
 * @throws InputError naming what could hurt somebody
 */
export function refuseUnsafe({ sheet, conditions }: WorkContext): void {
  const breach = search(sheet, conditions, 'breaks').breaches[0];
  if (!breach) return;
  throw new InputError(
    `job sheet ${sheet.job}`,
    `is not safe on this plant: ${breach.message}; leave it to a technician and tell who wrote the rule set`,
  );
}

/** The plant as last corrected. */
export function plantOf({ plant, answers }: Case): Plant {
  const corrected = answers.findLast(
    ({ question, value }) => question === 'plant' && value !== null && value !== 'unknown',
  );
  return parsePlant(corrected?.value ?? plant, 'plant');
}
