import { InputError } from '../common/errors.ts';
import { named } from '../common/named.ts';
import { type Plant, parsePlant } from '../plant/schema.ts';
import type { PlaceKind } from '../ruleset/cause.ts';
import type { DrinkingHazard } from '../ruleset/hazard.ts';
import type { RuleSet } from '../ruleset/schema.ts';
import type { Answer, Day } from './answer.ts';
import { beforeNewTrouble } from './new-trouble.ts';
import { checkPart } from './of-plant.ts';
import { parseWith } from './parse-with.ts';
import { checkPartOfJob, hasAny, partsInPlace, partsOfJob } from './places.ts';
import type { Readings } from './readings.ts';
import { tapsKey } from './taps.ts';
import { withHeightRead } from './uphill.ts';
import { noQuestion, parseValue } from './values.ts';
import { workDoneSchema } from './work-done.ts';

/** A reading with the parts it no longer speaks about, because they were worked on since. */
export interface SpokenReading extends Readings {
  readonly staleParts: readonly string[];
}

export interface WorkRecord {
  readonly job: string;
  readonly parts: readonly string[];
  readonly day: Day;
}

/** What a case's answers come to: the plant as now known, what still speaks, and what was asked. */
export interface Facts {
  readonly plant: Plant;
  readonly today: Day;
  /** question → value that still counts as evidence (never "unknown") */
  readonly values: ReadonlyMap<string, unknown>;
  /** the same with what was said of parts that the plant, as now known, does not have: it still warns */
  readonly told: ReadonlyMap<string, unknown>;
  /** readings by tap state */
  readonly readings: ReadonlyMap<string, SpokenReading>;
  /** the latest reading with all taps closed: gives each gauge's own offset, also after work */
  readonly offsets: Readings | null;
  /** questions (and `readings <tap state>`) that were answered, "unknown" included */
  readonly asked: ReadonlySet<string>;
  readonly unknown: ReadonlySet<string>;
  /** how often a question came back "unknown" */
  readonly timesUnknown: ReadonlyMap<string, number>;
  readonly work: readonly WorkRecord[];
  /** what may be in the water since the last work that says so */
  readonly notToDrink: readonly DrinkingHazard[];
  /** jobs that were tried and must not be tried again before other work was done */
  readonly notAgain: ReadonlySet<string>;
}

interface Draft {
  plant: Plant;
  values: Map<string, unknown>;
  readings: Map<string, SpokenReading>;
  offsets: Readings | null;
  asked: Set<string>;
  unknown: Set<string>;
  timesUnknown: Map<string, number>;
  work: WorkRecord[];
  notToDrink: readonly DrinkingHazard[];
  notAgain: Set<string>;
}

/**
 * Replays the answers in order. Throws an InputError with the place of the first answer that cannot be used.
 * @param today used when no answer carries a day and the case gives none
 */
export function factsOf(
  plantInput: unknown,
  answers: readonly Answer[],
  rules: RuleSet,
  today: { readonly given?: Day | undefined; readonly system: Day },
): Facts {
  const draft: Draft = {
    plant: parsePlant(plantInput, 'plant'),
    values: new Map(),
    readings: new Map(),
    offsets: null,
    asked: new Set(),
    unknown: new Set(),
    timesUnknown: new Map(),
    work: [],
    notToDrink: [],
    notAgain: new Set(),
  };
  const caseDay = today.given ?? latestDay(answers) ?? today.system;
  const seen = new Set<string>();
  const past = beforeNewTrouble(answers, rules);
  answers.forEach((answer, i) => {
    if (answer.answerId !== undefined) {
      if (seen.has(answer.answerId)) return;
      seen.add(answer.answerId);
    }
    const place = `answers[${i}].value`;
    const day = answer.at?.slice(0, 10) ?? caseDay;
    if (past.has(i)) applyPast(draft, answer, rules, place, day);
    else apply(draft, answer, rules, place, day);
  });
  return {
    ...draft,
    values: ofItsParts(draft, rules),
    told: draft.values,
    plant: withHeightRead(draft.plant, draft.offsets?.bar),
    today: caseDay,
  };
}

/** What was said of a pump is no evidence once the plant turns out to have none: not applicable is no answer. */
function ofItsParts({ values, plant }: Draft, rules: RuleSet): Map<string, unknown> {
  const isThere = (question: string): boolean =>
    rules.questions[question]?.when.every(({ has }) => !has || hasAny(has, plant)) ?? true;
  return new Map([...values].filter(([question]) => isThere(question)));
}

/** The day, as written, of the answer given last; far to the east it may be a later day already at an earlier moment. */
function latestDay(answers: readonly Answer[]): Day | undefined {
  const times = answers.flatMap(({ at }) => at ?? []);
  const latest = times.toSorted((a, b) => Date.parse(a) - Date.parse(b)).at(-1);
  return latest?.slice(0, 10);
}

function apply(draft: Draft, answer: Answer, rules: RuleSet, where: string, day: Day): void {
  const { question, value } = answer;
  if (question === 'plant') {
    if (value === 'unknown' || value === null) return;
    draft.plant = parsePlant(value, where);
    forgetMissingParts(draft);
    return;
  }
  if (question === 'work-done') {
    if (value !== 'unknown' && value !== null) recordWork(draft, value, rules, where, day);
    return;
  }
  const table = named(rules.questions, question);
  if (!table) {
    throw new InputError(where.replace(/\.value$/, '.question'), noQuestion(question, rules));
  }
  const checked = parseValue(question, value, rules, draft.plant, day, where);
  if (table.kind === 'readings') {
    applyReadings(draft, question, checked);
    return;
  }
  draft.unknown.delete(question);
  if (checked === null) {
    draft.values.delete(question);
    draft.asked.delete(question);
    return;
  }
  draft.asked.add(question);
  if (checked === 'unknown') {
    draft.values.delete(question);
    draft.unknown.add(question);
    draft.timesUnknown.set(question, (draft.timesUnknown.get(question) ?? 0) + 1);
  } else draft.values.set(question, checked);
}

/** Of what no longer speaks only a gauge's own error stays. */
function applyPast(draft: Draft, answer: Answer, rules: RuleSet, where: string, day: Day): void {
  const { question, value } = answer;
  const checked = parseValue(question, value, rules, draft.plant, day, where);
  if (rules.questions[question]?.kind !== 'readings' || typeof checked !== 'object') return;
  const readings = checked as Readings | null;
  if (readings?.taps === 'closed') draft.offsets = readings;
}

function applyReadings(draft: Draft, question: string, value: unknown): void {
  if (value === null || value === 'unknown') {
    draft.readings.clear();
    draft.offsets = null;
    for (const key of [...draft.asked]) if (key.startsWith(`${question} `)) draft.asked.delete(key);
    draft.asked.delete(question);
    draft.unknown.delete(question);
    if (value === 'unknown') {
      draft.asked.add(question);
      draft.unknown.add(question);
    }
    return;
  }
  const readings = value as Readings;
  const key = tapsKey(readings.taps);
  draft.asked.add(`${question} ${key}`);
  draft.readings.set(key, { ...readings, staleParts: [] });
  if (key === 'closed') draft.offsets = readings;
}

/** After a changed plant, readings at gauges that are gone no longer count. */
function forgetMissingParts(draft: Draft): void {
  const gauges = new Set(
    draft.plant.line.filter((part) => part.kind === 'gauge').map((part) => part.id),
  );
  const keep = <R extends Readings>(readings: R): R => ({
    ...readings,
    bar: Object.fromEntries(Object.entries(readings.bar).filter(([id]) => gauges.has(id))),
  });
  for (const [key, readings] of draft.readings) draft.readings.set(key, keep(readings));
  if (draft.offsets) draft.offsets = keep(draft.offsets);
}

/** Work done: earlier answers stop speaking about the complaint and about the parts worked on. */
function recordWork(draft: Draft, value: unknown, rules: RuleSet, where: string, day: Day): void {
  const work = parseWith(workDoneSchema, value, where);
  const job = named(rules.jobs, work.job);
  if (!job)
    throw new InputError(`${where}.job`, `no job "${work.job}" in rule set ${rules.head.version}`);
  work.parts?.forEach((id, i) => {
    const place = `${where}.parts[${i}]`;
    checkPart(id, draft.plant, place, () => true, 'part');
    checkPartOfJob(work.job, id, rules, draft.plant, place);
  });
  if (work.notToDrink) draft.notToDrink = work.notToDrink;
  if (work.done === false) {
    if (work.again === false) draft.notAgain.add(work.job);
    return;
  }
  draft.notAgain.clear();
  const parts = work.parts ?? partsOfJob(job, rules, draft.plant);
  const places = new Set(parts);
  for (const question of [...draft.asked]) {
    const table = rules.questions[question];
    if (!table || table.combine === 'none') continue;
    const elsewhere =
      table.about !== undefined && !partsOfPlaceTouch(table.about, places, draft.plant);
    if (elsewhere) continue;
    draft.values.delete(question);
    draft.asked.delete(question);
    draft.unknown.delete(question);
  }
  for (const [key, readings] of draft.readings) {
    draft.asked.delete(`readings ${key}`);
    if (key === 'closed') draft.readings.delete(key);
    else
      draft.readings.set(key, {
        ...readings,
        staleParts: [...new Set([...readings.staleParts, ...parts])],
      });
  }
  draft.work.push({ job: work.job, parts, day });
}

function partsOfPlaceTouch(place: PlaceKind, parts: ReadonlySet<string>, plant: Plant): boolean {
  return partsInPlace(place, plant).some((id) => parts.has(id));
}
