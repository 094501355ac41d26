import { z } from 'zod';
import { InputError } from '../common/errors.ts';
import { atLeastZero, positive } from '../common/figures.ts';
import { named } from '../common/named.ts';
import type { Plant } from '../plant/schema.ts';
import { suggestion } from '../ruleset/nearest.ts';
import type { Question, RuleSet } from '../ruleset/schema.ts';
import { type Day, daySchema } from './answer.ts';
import { checkGauge, checkPart, checkTaps, noRepeats } from './of-plant.ts';
import { parseWith } from './parse-with.ts';
import { parseReadings } from './readings.ts';
import { tapsSchema } from './taps.ts';

/**
 * The shapes of an answer's value, one per kind of question (contract "Answers"). Pressures may come in bar, psi or
 * kPa and leave in bar; everything else is kept as given.
 */

export const flowSchema = z.strictObject({
  // no water at all is a flow too
  litres: atLeastZero,
  seconds: positive,
  taps: tapsSchema.refine((taps) => taps !== 'closed', 'a flow test needs an open tap').optional(),
});
export type FlowTest = z.infer<typeof flowSchema>;

/** Water above an outlet: deeper than in any small well is another unit or another figure. */
const MOST_LEVEL_M = 150;

const pressureSchema = z.strictObject({
  bar: atLeastZero,
  gauge: z.string().optional(),
});
const pressureLossSchema = z.strictObject({
  lostBar: atLeastZero,
  minutes: positive,
});
const prechargeSchema = z.union(
  [z.strictObject({ bar: atLeastZero }), z.literal('water-at-valve')],
  {
    error: 'precharge is {"bar": number} or "water-at-valve"',
  },
);
export const cycleTimesSchema = z.strictObject({
  onS: positive,
  offS: positive,
  taps: z.enum(['closed', 'open']),
});
export type CycleTimes = z.infer<typeof cycleTimesSchema>;
const vacuumSchema = z.strictObject({
  bar: z
    .number()
    .min(-1.1, 'below a perfect vacuum')
    .max(0, 'a vacuum is below zero: write it with a minus sign, e.g. -0.3 bar, or 0 for none'),
});
const housingSchema = z.strictObject({
  removed: z.array(z.string()).min(1, 'name at least one filter'),
  result: z.enum(['restored', 'better', 'same']),
});
export const waterTestSchema = z.strictObject({
  ph: z.number().min(0).max(14).optional(),
  turbidityNtu: atLeastZero.optional(),
  ironMgL: atLeastZero.optional(),
  copperMgL: atLeastZero.optional(),
  freeChlorineMgL: atLeastZero.optional(),
  uvtPercent: z.number().min(0).max(100).optional(),
  eColi: z.enum(['present', 'absent']).optional(),
});
export type WaterTest = z.infer<typeof waterTestSchema>;

/**
 * Checks one answer's value and returns it in bar.
 * @param day when it was answered: what is told of as done was done by then
 * @param where the place in the reader's file
 */
export function parseValue(
  questionId: string,
  value: unknown,
  rules: RuleSet,
  plant: Plant,
  day: Day,
  where: string,
): unknown {
  const question = named(rules.questions, questionId);
  if (!question) throw new InputError(where, noQuestion(questionId, rules));
  if (value === 'unknown' || value === null) return value;
  if (value === undefined)
    throw new InputError(where, 'needs a value; "unknown" and null (take it back) are values too');
  return byKind(question, value, plant, day, where);
}

/** Says that a rule set asks no such question, and which was meant. */
export function noQuestion(id: string, { head, questions }: RuleSet): string {
  const mend = suggestion(id, Object.keys(questions), 'check its spelling');
  return `no question "${id}" in rule set ${head.version}: ${mend}`;
}

function byKind(
  question: Question,
  value: unknown,
  plant: Plant,
  day: Day,
  where: string,
): unknown {
  switch (question.kind) {
    case 'choice':
      return oneOf(question.answers, value, where);
    case 'list':
      return listOf(question.answers, value, where);
    case 'tank-level':
      return typeof value === 'string'
        ? oneOf(question.answers, value, where)
        : parseWith(z.strictObject({ m: atLeastZero.max(MOST_LEVEL_M) }), value, where);
    case 'readings':
      return parseReadings(value, plant, where);
    case 'flow': {
      const flow = parseWith(flowSchema, value, where);
      if (flow.taps) checkTaps(flow.taps, plant, `${where}.taps`);
      return flow;
    }
    case 'pressure': {
      const pressure = parseWith(pressureSchema, value, where);
      if (pressure.gauge !== undefined) checkGauge(pressure.gauge, plant, `${where}.gauge`);
      return pressure;
    }
    case 'pressure-loss':
      return parseWith(pressureLossSchema, value, where);
    case 'precharge':
      return parseWith(prechargeSchema, value, where);
    case 'cycle-times':
      return parseWith(cycleTimesSchema, value, where);
    case 'hours':
      return parseWith(atLeastZero, value, where);
    case 'dates':
      return parseDates(value, plant, day, where);
    case 'vacuum':
      return parseWith(vacuumSchema, value, where);
    case 'housing': {
      const housing = parseWith(housingSchema, value, where);
      noRepeats(housing.removed, `${where}.removed`);
      housing.removed.forEach((id, i) => {
        checkPart(id, plant, `${where}.removed[${i}]`, (kind) => kind === 'filter', 'filter');
      });
      return housing;
    }
    case 'water-test':
      return parseWith(waterTestSchema, value, where);
  }
}

function oneOf(answers: readonly string[], value: unknown, where: string): string {
  if (typeof value === 'string' && answers.includes(value)) return value;
  throw new InputError(
    where,
    `${JSON.stringify(value)} is not an answer here; use one of ${answers.join(', ')}`,
  );
}

function listOf(answers: readonly string[], value: unknown, where: string): readonly string[] {
  if (!Array.isArray(value))
    throw new InputError(where, `a list, e.g. ["${answers[0]}"]; [] for none`);
  const list = value.map((item, i) => oneOf(answers, item, `${where}[${i}]`));
  noRepeats(list, where);
  return answers.filter((answer) => list.includes(answer));
}

function parseDates(value: unknown, plant: Plant, day: Day, where: string): Record<string, string> {
  const dates = parseWith(z.record(z.string(), daySchema), value, where);
  const filters = plant.line.filter((part) => part.kind === 'filter');
  for (const [key, date] of Object.entries(dates)) {
    if (date > day)
      throw new InputError(
        `${where}.${key}`,
        `${date} is later than ${day}, the day of the answer: give the day it was done, or leave it out`,
        { id: 'later-date', holes: { date } },
      );
    if (filters.some((part) => part.id === key || part.medium === key)) continue;
    const known = [...new Set(filters.flatMap((part) => [part.medium, part.id]))];
    throw new InputError(
      `${where}.${key}`,
      `no such filter; those there: ${known.join(', ') || 'none'}`,
    );
  }
  return dates;
}
