import type { Audience } from '../../../shared/case/answer.ts';
import { InputError } from '../../../shared/common/errors.ts';
import { type Case, diagnose } from '../../../shared/diagnosis/diagnose.ts';
import type { PlannedJob, Result } from '../../../shared/diagnosis/result.ts';
import { type Plant, parsePlant } from '../../../shared/plant/schema.ts';
import { featuresOf, targetIndex } from '../../../shared/work/features.ts';
import { holesOf } from '../../../shared/work/holes.ts';
import type { DrinkingHazard, WorkRules } from '../../../shared/work/schema.ts';
import { search } from '../../../shared/work/search.ts';
import { type Sheet, sheetOf } from '../../../shared/work/sheet.ts';
import type { WorkContext } from '../../../shared/work/state.ts';
import type { WorkWords } from '../../../shared/work/words.ts';
import type { Knowledge } from '../knowledge.ts';

/** What the command line knows of work: the job sheets and their words, besides the rule set. */
export interface WorkKnowledge extends Knowledge {
  readonly work: WorkRules;
  readonly workWords: WorkWords;
}

/** One job under way on one case. */
export interface WorkSession {
  readonly theCase: Case;
  readonly plant: Plant;
  readonly audience: Audience;
  readonly before: Result;
  readonly context: WorkContext;
  readonly part: string | null;
  readonly cause: string | null;
  readonly holes: Readonly<Record<string, string>>;
  readonly advice: readonly DrinkingHazard[];
}

export interface Wanted {
  readonly job?: string | undefined;
  readonly part?: string | undefined;
  readonly audience?: Audience | undefined;
}

/**
 * Opens the first job of the case's plan, or the one wanted. Null when there is nothing to do.
 * @throws InputError for a job or part that is not there
 */
export function openJob(
  theCase: Case,
  wanted: Wanted,
  knowledge: WorkKnowledge,
  today: string,
): WorkSession | null {
  const { rules, words, work, workWords } = knowledge;
  const plant = parsePlant(theCase.plant, 'plant');
  const before = diagnose(theCase, rules, words, today);
  const planned = before.plan.find(({ job }) => wanted.job === undefined || job === wanted.job);
  const job = wanted.job ?? planned?.job;
  if (job === undefined) return null;
  const table = work.jobs[job];
  if (!table) {
    throw new InputError(
      '--job',
      `no job sheet "${job}"; there are ${Object.keys(work.jobs).join(', ')}`,
    );
  }
  if (wanted.part !== undefined && !plant.line.some(({ id }) => id === wanted.part)) {
    throw new InputError(
      '--part',
      `no part "${wanted.part}"; there are ${plant.line.map(({ id }) => id).join(', ')}`,
    );
  }
  const index = targetIndex(plant, table.at, wanted.part ?? likeliest(planned, before));
  const part = plant.line[index]?.id ?? null;
  const sheet = sheetOf(work, job, featuresOf(plant, index));
  refuseUnsafe(sheet, work);
  return {
    theCase,
    plant,
    audience: wanted.audience ?? theCase.audience ?? 'householder',
    before,
    context: { sheet, conditions: work.conditions },
    part,
    cause: planned?.cause ?? null,
    holes: holesOf(plant, index, table.by, workWords),
    advice: adviceIn(before, knowledge),
  };
}

/** The rule set is proved over all kinds of plant; this very plant is played through too before anybody begins. */
function refuseUnsafe(sheet: Sheet, { conditions }: WorkRules): void {
  const breach = search(sheet, conditions, 'breaks').breaches[0];
  if (!breach) return;
  const way = breach.path.join(' → ');
  throw new InputError(
    `job sheet ${sheet.job}`,
    `is not safe on this plant: ${breach.message} (${way}); leave it to a technician and tell who wrote the rule set`,
  );
}

/** Of the parts a planned job may be done on, the one its cause most likely sits in. */
function likeliest(planned: PlannedJob | undefined, { causes }: Result): string | undefined {
  const places = causes.find(({ id }) => id === planned?.cause)?.parts ?? [];
  const chance = (part: string) => places.find(({ id }) => id === part)?.probability ?? 0;
  return planned?.parts.toSorted((a, b) => chance(b) - chance(a))[0];
}

/** The rule set's caution about drinking for a hazard. */
function cautionFor(hazard: DrinkingHazard, { rules }: Knowledge): string[] {
  return Object.entries(rules.cautions)
    .filter(([, { when }]) =>
      when.some((condition) => 'hazard' in condition && condition.hazard === hazard),
    )
    .map(([id]) => id);
}

function adviceIn({ cautions }: Result, knowledge: Knowledge): DrinkingHazard[] {
  const hazards: readonly DrinkingHazard[] = ['microbes', 'chemical'];
  return hazards.filter((hazard) =>
    cautions.some(({ id }) => cautionFor(hazard, knowledge).includes(id)),
  );
}

/** What to say about drinking for these hazards, and for whom in this household it matters most. */
export function adviceTexts(
  hazards: readonly DrinkingHazard[],
  session: WorkSession,
  knowledge: Knowledge,
): string[] {
  if (hazards.length === 0) return [];
  const forHousehold = Object.entries(knowledge.rules.cautions)
    .filter(([, { when }]) => when.some((condition) => 'household' in condition))
    .map(([id]) => id)
    .filter((id) => session.before.cautions.some((caution) => caution.id === id));
  const ids = new Set([
    ...hazards.flatMap((hazard) => cautionFor(hazard, knowledge)),
    ...forHousehold,
  ]);
  return [...ids].flatMap((id) => knowledge.words.cautions[id]?.[session.audience] ?? []);
}
