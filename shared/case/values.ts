import { z } from 'zod';
import { InputError } from '../common/errors.ts';
import { toBar } from '../hydraulics/units.ts';
import { messageOf, placeOf } from '../plant/messages.ts';
import type { Plant } from '../plant/schema.ts';
import type { Question, RuleSet } from '../ruleset/schema.ts';
import { daySchema } from './answer.ts';
import { tapsSchema } from './taps.ts';

/**
 * The shapes of an answer's value, one per kind of question (contract "Answers"). Pressures may come in bar, psi or
 * kPa and leave in bar; everything else is kept as given.
 */

const positive = z.number().positive();

export const readingsSchema = z.strictObject({
  taps: tapsSchema,
  bar: z.record(z.string(), z.union([z.number(), z.literal('unknown')])),
  flowLpm: z.number().nonnegative().optional(),
  pump: z.enum(['on', 'off']).optional(),
});
export type Readings = z.infer<typeof readingsSchema>;

// Each pressure is checked by hand, so that a bad one is named by its gauge.
const pressures = z.union([z.literal('unknown'), z.record(z.string(), z.unknown())], {
  error: 'a pressure per gauge, e.g. {"G1": 3.4}, or "unknown"',
});
const readingsInput = readingsSchema.omit({ bar: true }).extend({
  bar: pressures.optional(),
  psi: pressures.optional(),
  kPa: pressures.optional(),
});

export const flowSchema = z.strictObject({
  litres: positive,
  seconds: positive,
  taps: tapsSchema.refine((taps) => taps !== 'closed', 'a flow test needs an open tap').optional(),
});
export type FlowTest = z.infer<typeof flowSchema>;

const pressureSchema = z.strictObject({
  bar: z.number().nonnegative(),
  gauge: z.string().optional(),
});
const pressureLossSchema = z.strictObject({
  lostBar: z.number().nonnegative(),
  minutes: positive,
});
const prechargeSchema = z.union(
  [z.strictObject({ bar: z.number().nonnegative() }), z.literal('water-at-valve')],
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
  bar: z.number().min(-1.1, 'below a perfect vacuum').max(2),
});
const housingSchema = z.strictObject({
  removed: z.array(z.string()).min(1, 'name at least one filter'),
  result: z.enum(['restored', 'better', 'same']),
});
export const waterTestSchema = z.strictObject({
  ph: z.number().min(0).max(14).optional(),
  turbidityNtu: z.number().nonnegative().optional(),
  ironMgL: z.number().nonnegative().optional(),
  copperMgL: z.number().nonnegative().optional(),
  freeChlorineMgL: z.number().nonnegative().optional(),
  uvtPercent: z.number().min(0).max(100).optional(),
  eColi: z.enum(['present', 'absent']).optional(),
});
export type WaterTest = z.infer<typeof waterTestSchema>;

/** Throws an InputError naming the place of the first thing wrong. */
export function parseWith<T>(schema: z.ZodType<T>, value: unknown, where: string): T {
  const result = schema.safeParse(value);
  if (result.success) return result.data;
  const issue = result.error.issues[0];
  if (!issue) throw new InputError(where, 'not understood');
  // A message of our own stands; the library's are put in plain words.
  const own = !/^(Too |Invalid |Unrecognized )/.test(issue.message);
  throw new InputError(placeOf(where, issue), own ? issue.message : messageOf(issue));
}

/** Checks one answer's value and returns it in bar. `where` is the place in the reader's file. */
export function parseValue(
  questionId: string,
  value: unknown,
  rules: RuleSet,
  plant: Plant,
  where: string,
): unknown {
  const question = rules.questions[questionId];
  if (!question)
    throw new InputError(where, `no question "${questionId}" in rule set ${rules.head.version}`);
  if (value === 'unknown' || value === null) return value;
  if (value === undefined)
    throw new InputError(where, 'needs a value; "unknown" and null (take it back) are values too');
  return byKind(question, value, plant, where);
}

function byKind(question: Question, value: unknown, plant: Plant, where: string): unknown {
  switch (question.kind) {
    case 'choice':
      return oneOf(question.answers, value, where);
    case 'list':
      return listOf(question.answers, value, where);
    case 'tank-level':
      return typeof value === 'string'
        ? oneOf(question.answers, value, where)
        : parseWith(z.strictObject({ m: z.number().nonnegative() }), value, where);
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
      return parseWith(z.number().nonnegative(), value, where);
    case 'dates':
      return parseDates(value, plant, where);
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

function noRepeats(list: readonly string[], where: string): void {
  const repeated = list.find((item, i) => list.indexOf(item) !== i);
  if (repeated !== undefined) throw new InputError(where, `"${repeated}" stands twice in the list`);
}

function parseReadings(value: unknown, plant: Plant, where: string): Readings {
  const input = parseWith(readingsInput, value, where);
  const units = (['bar', 'psi', 'kPa'] as const).filter((unit) => input[unit] !== undefined);
  if (units.length > 1)
    throw new InputError(where, `two pressure units (${units.join(', ')}): give one`);
  const unit = units[0];
  if (!unit && input.flowLpm === undefined) {
    throw new InputError(
      where,
      'needs the pressures: "bar", "psi" or "kPa" with a value per gauge, or "unknown"',
    );
  }
  const given = (unit && input[unit]) ?? {};
  const inBar = toBar[unit ?? 'bar'];
  const bar: Record<string, number | 'unknown'> = {};
  if (given === 'unknown') {
    for (const part of plant.line) if (part.kind === 'gauge') bar[part.id] = 'unknown';
  } else {
    const pumpAt = plant.line.findIndex((part) => part.kind === 'pump');
    for (const id of Object.keys(given).sort()) {
      const place = `${where}.${unit}.${id}`;
      checkGauge(id, plant, place);
      const reading = given[id];
      if (typeof reading === 'number' && Number.isFinite(reading)) {
        const beforePump = plant.line.findIndex((part) => part.id === id) < pumpAt;
        const lowest = beforePump ? -1.1 : 0;
        if (inBar(reading) < lowest)
          throw new InputError(
            place,
            `${reading} ${unit} cannot be: a gauge here reads zero or more`,
          );
        bar[id] = inBar(reading);
      } else if (reading === 'unknown') bar[id] = reading;
      else throw new InputError(place, 'give a number, or "unknown" when it cannot be read');
    }
  }
  checkTaps(input.taps, plant, `${where}.taps`);
  if (input.taps === 'closed' && (input.flowLpm ?? 0) > 0) {
    throw new InputError(`${where}.flowLpm`, 'water cannot be drawn with all taps closed');
  }
  return {
    taps: input.taps,
    bar,
    ...(input.flowLpm !== undefined && { flowLpm: input.flowLpm }),
    ...(input.pump !== undefined && { pump: input.pump }),
  };
}

function checkGauge(id: string, plant: Plant, where: string): void {
  checkPart(id, plant, where, (kind) => kind === 'gauge', 'gauge');
}

function checkPart(
  id: string,
  plant: Plant,
  where: string,
  fits: (kind: string) => boolean,
  name: string,
): void {
  const there = plant.line.filter((part) => fits(part.kind)).map((part) => part.id);
  if (there.includes(id)) return;
  const list = there.length > 0 ? `those there: ${there.join(', ')}` : `this plant has none`;
  throw new InputError(where, `no ${name} "${id}"; ${list}`);
}

function checkTaps(taps: z.infer<typeof tapsSchema>, plant: Plant, where: string): void {
  if (typeof taps === 'string' || !Array.isArray(taps.open)) return;
  const house = plant.line.find((part) => part.kind === 'house');
  const there = (house?.taps ?? []).map((tap) => tap.id);
  noRepeats(taps.open, `${where}.open`);
  taps.open.forEach((id, i) => {
    if (there.includes(id)) return;
    const list =
      there.length > 0 ? `those there: ${there.join(', ')}` : 'this house names none: use a number';
    throw new InputError(`${where}.open[${i}]`, `no tap "${id}"; ${list}`);
  });
}

function parseDates(value: unknown, plant: Plant, where: string): Record<string, string> {
  const dates = parseWith(z.record(z.string(), daySchema), value, where);
  const filters = plant.line.filter((part) => part.kind === 'filter');
  for (const key of Object.keys(dates)) {
    if (filters.some((part) => part.id === key || part.medium === key)) continue;
    const known = [...new Set(filters.flatMap((part) => [part.medium, part.id]))];
    throw new InputError(
      `${where}.${key}`,
      `no such filter; those there: ${known.join(', ') || 'none'}`,
    );
  }
  return dates;
}
