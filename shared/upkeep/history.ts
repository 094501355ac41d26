import { z } from 'zod';
import { type Day, daySchema } from '../case/answer.ts';
import { parseWith, sentenceOf } from '../case/parse-with.ts';
import type { Readings } from '../case/readings.ts';
import { parseValue } from '../case/values.ts';
import { InputError } from '../common/errors.ts';
import { named } from '../common/named.ts';
import type { Line } from '../hydraulics/line.ts';
import { lineOf } from '../hydraulics/line.ts';
import { type Assumed, type ResolvedPlant, resolvePlant } from '../plant/defaults.ts';
import { type Plant, parsePlant } from '../plant/schema.ts';
import { suggestion } from '../ruleset/nearest.ts';
import type { RuleSet } from '../ruleset/schema.ts';
import { dayNumber, momentOf } from './days.ts';
import { readingNow, workNow } from './still-there.ts';

/** One reading of the gauges on one day. */
export interface Round {
  readonly day: number;
  readonly readings: Readings;
  /** the water's own temperature that day; the plant's where nobody measured it */
  readonly waterTempC: number;
}

/** Anything else measured on a day, as an answer to a question of the rule set (cycle times, lamp hours, a water test). */
export interface DatedAnswer {
  readonly day: number;
  readonly kind: RuleSet['questions'][string]['kind'];
  readonly value: unknown;
}

/** A job finished on a day; `parts` null where the record names none. */
export interface Work {
  readonly day: number;
  readonly job: string;
  readonly parts: readonly string[] | null;
}

/** A plant's record, checked and in order of time. */
export interface Upkeep {
  readonly plant: Plant;
  readonly resolved: ResolvedPlant;
  readonly assumed: readonly Assumed[];
  /** the clean line */
  readonly line: Line;
  readonly rounds: readonly Round[];
  readonly answers: readonly DatedAnswer[];
  readonly done: readonly Work[];
  readonly today: Day;
  /** entries later than `today`, which count for nothing yet */
  readonly later: number;
  /** gauges, taps and parts of the record that the plant no longer has */
  readonly gone: readonly string[];
}

const time = z.union([daySchema, z.iso.datetime({ offset: true })], {
  error: 'write a day as 2026-11-25 or a time as 2026-11-25T08:30:00+01:00',
});

const recordSchema = z.strictObject({
  plant: z.unknown(),
  history: z.array(z.looseObject({ at: time })).default([]),
  done: z
    .array(
      z.strictObject({ at: time, job: z.string(), parts: z.array(z.string()).min(1).optional() }),
    )
    .default([]),
  today: daySchema.optional(),
});
type Entry = z.infer<typeof recordSchema>['history'][number];

const answerEntry = z.strictObject({ at: time, question: z.string(), value: z.unknown() });
/** A job and a reading of the same day without times: the reading is taken as the one after the work. */
const MORNING = 0;
const NOON = 0.5;

const temperature = z.number().min(0).max(60).optional();

/**
 * Reads a plant's record: `{ plant, history, done, today }`. An entry of the history is a reading of the gauges
 * (`{ at, taps, bar, flowLpm?, waterTempC? }`, psi or kPa in place of bar) or any other answer (`{ at, question, value }`).
 *
 * @param systemDay taken as today when neither the record nor its entries carry a day
 * @param missing what is done with a gauge, tap or part that the plant does not have: a slip in a file, to be refused; in
 *   a record of years, something that has left since
 * @throws InputError naming the place of the first thing that cannot be used
 */
export function parseUpkeep(
  input: unknown,
  rules: RuleSet,
  systemDay: Day,
  missing: 'refused' | 'left-out' = 'refused',
): Upkeep {
  const record = parseRecord(input);
  const plant = parsePlant(record.plant, 'plant');
  const { plant: resolved, assumed } = resolvePlant(plant);
  const at = [...record.history, ...record.done].map((entry) => entry.at.slice(0, 10));
  const today = record.today ?? at.sort().at(-1) ?? systemDay;
  const rounds: Round[] = [];
  const answers: DatedAnswer[] = [];
  const gone = new Set<string>();
  const hear = (id: string) => gone.add(id);
  record.history.forEach((written, i) => {
    const where = `history[${i}]`;
    const entry = missing === 'left-out' ? readingNow(written, plant, hear) : written;
    if (!entry) return;
    if ('question' in entry) {
      const answer = answerOf(entry, rules, plant, where);
      // Not knowing is an answer, but it measures nothing.
      if (answer.value !== null && answer.value !== 'unknown') answers.push(answer);
    } else rounds.push(roundOf(entry, rules, plant, resolved.waterTempC, where));
  });
  const done = record.done.flatMap((written, i) => {
    const work = missing === 'left-out' ? workNow(written, plant, hear) : written;
    return work ? [workOf(work, rules, plant, `done[${i}]`)] : [];
  });
  const until = dayNumber(today);
  const upToNow = <T extends { day: number }>(entries: T[]) =>
    entries.filter((entry) => entry.day < until + 1).sort((a, b) => a.day - b.day);
  const kept = { rounds: upToNow(rounds), answers: upToNow(answers), done: upToNow(done) };
  const laterOf = (entries: readonly { day: number }[]) =>
    entries.filter((entry) => entry.day >= until + 1).length;
  return {
    plant,
    resolved,
    assumed,
    line: lineOf(resolved),
    ...kept,
    today,
    gone: [...gone],
    later: laterOf(rounds) + laterOf(answers) + laterOf(done),
  };
}

function parseRecord(input: unknown): z.infer<typeof recordSchema> {
  if (typeof input === 'object' && input !== null && 'answers' in input)
    throw new InputError(
      'answers',
      'this is a case, of one day; a record of a plant holds "plant", "history" and "done" (docs/upkeep.md)',
    );
  if (typeof input === 'object' && input !== null && 'line' in input)
    throw new InputError(
      'line',
      'this is a plant by itself; write it as {"plant": …, "history": [], "done": []} (docs/upkeep.md)',
    );
  const result = recordSchema.safeParse(input, { reportInput: true });
  if (result.success) {
    if (result.data.plant === undefined) throw new InputError('plant', 'is missing');
    return result.data;
  }
  const issue = result.error.issues[0];
  const unknown = issue?.code === 'unrecognized_keys' ? issue.keys[0] : undefined;
  const path = [...(issue?.path ?? []), ...(unknown === undefined ? [] : [unknown])];
  const place = path.reduce<string>(
    (text, step) =>
      typeof step === 'number'
        ? `${text}[${step}]`
        : text
          ? `${text}.${String(step)}`
          : String(step),
    '',
  );
  throw new InputError(
    place || 'record',
    unknown === undefined
      ? issue
        ? sentenceOf(issue)
        : 'not understood'
      : `unknown field "${unknown}": leave it out or check its spelling`,
  );
}

function roundOf(
  entry: Entry,
  rules: RuleSet,
  plant: Plant,
  usualTempC: number,
  where: string,
): Round {
  const { at, waterTempC, ...readings } = entry;
  const question = Object.entries(rules.questions).find(([, q]) => q.kind === 'readings')?.[0];
  if (question === undefined) throw new Error('a rule set asks for readings');
  const tempC = parseWith(temperature, waterTempC, `${where}.waterTempC`);
  const parsed = parseValue(question, readings, rules, plant, at.slice(0, 10), where) as Readings;
  return { day: momentOf(at, NOON), readings: parsed, waterTempC: tempC ?? usualTempC };
}

function answerOf(entry: Entry, rules: RuleSet, plant: Plant, where: string): DatedAnswer {
  const { at, question, value } = parseWith(answerEntry, entry, where);
  const asked = named(rules.questions, question);
  if (!asked) {
    const known = Object.keys(rules.questions);
    const hint = suggestion(question, known, 'use a question of the rule set');
    throw new InputError(`${where}.question`, `there is no question "${question}"; ${hint}`);
  }
  const parsed = parseValue(question, value, rules, plant, at.slice(0, 10), `${where}.value`);
  return { day: momentOf(at, NOON), kind: asked.kind, value: parsed };
}

function workOf(
  work: z.infer<typeof recordSchema>['done'][number],
  rules: RuleSet,
  plant: Plant,
  where: string,
): Work {
  if (!named(rules.jobs, work.job)) {
    const hint = suggestion(work.job, Object.keys(rules.jobs), 'use a job of the rule set');
    throw new InputError(`${where}.job`, `there is no job "${work.job}"; ${hint}`);
  }
  const ids = plant.line.map((part) => part.id);
  work.parts?.forEach((id, i) => {
    if (!ids.includes(id)) {
      const place = `${where}.parts[${i}]`;
      throw new InputError(place, `no part "${id}"; those there: ${ids.join(', ')}`);
    }
  });
  return { day: momentOf(work.at, MORNING), job: work.job, parts: work.parts ?? null };
}

/** Days on which one of these jobs was done on a part (a record that names no part counts for all it can mean). */
export function daysOfWork(done: readonly Work[], jobs: readonly string[], part: string): number[] {
  return done
    .filter((work) => jobs.includes(work.job) && (work.parts?.includes(part) ?? true))
    .map((work) => work.day);
}
