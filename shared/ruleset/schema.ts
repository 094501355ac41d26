import { z } from 'zod';
import { type Cause, cause, id, placeKind } from './cause.ts';
import { drinkingHazard } from './hazard.ts';

/**
 * What a rule set's tables may hold. A rule set is one dated folder of YAML; words for people live apart in
 * `words/<language>/`. Every table is read by a tradesperson, so keys carry units and frequencies are words.
 * See docs/rules.md for each field with an example.
 */

/** How often, in the trade's words; the figures stand in ruleset.yaml. */
export const frequencyWords = [
  'almost always',
  'usually',
  'often',
  'sometimes',
  'seldom',
  'hardly ever',
] as const;
export const frequencyWord = z.enum(frequencyWords);
export type FrequencyWord = z.infer<typeof frequencyWord>;

/** A plant or case must have these for a question to be asked, or a job to be named. */
export const condition = z.strictObject({
  /** one of these places is in the plant */
  has: z.array(placeKind).optional(),
  control: z.array(z.string()).optional(),
  /** a former question was answered with one of these (single value, or an item of a list) */
  answered: z.strictObject({ question: id, oneOf: z.array(id) }).optional(),
  /** a former question was not answered with any of these (not asked or not known is fine) */
  notAnswered: z.strictObject({ question: id, oneOf: z.array(id) }).optional(),
  gauges: z
    .strictObject({
      atLeast: z.number().int(),
      /** a valve stands past one of them, so that it still sees the pump when that is shut */
      beforeValve: z.literal(true).optional(),
    })
    .optional(),
});
export type Condition = z.infer<typeof condition>;

export const questionKinds = [
  'list',
  'choice',
  'tank-level',
  'readings',
  'flow',
  'pressure',
  'pressure-loss',
  'precharge',
  'cycle-times',
  'hours',
  'dates',
  'vacuum',
  'housing',
  'water-test',
] as const;

const minutesFor = z.strictObject({
  householder: z.number().nonnegative(),
  agent: z.number().nonnegative(),
  technician: z.number().nonnegative(),
});

/** Frequency words by answer. */
const signs = z.record(id, frequencyWord);
export type Signs = z.infer<typeof signs>;

/**
 * An answer's bands: the first whose bounds hold gives the answer id used in the table. A result in words meets the band
 * whose answer ends in that word ("present": e-coli-present).
 */
const band = z.strictObject({
  answer: id,
  below: z.number().optional(),
  atLeast: z.number().optional(),
});

export const question = z.strictObject({
  kind: z.enum(questionKinds),
  /** the ids of the answers, worst last where `combine` is `worst` */
  answers: z.array(id).default([]),
  /** answers of a list that count only when said alone */
  alone: z.array(id).default([]),
  /** how several causes make one answer; `solved` answers come from the hydraulics, `none` is not evidence */
  combine: z.enum(['any', 'worst', 'one of', 'solved', 'none']),
  /** a solved choice: the pump heard with a tap open, or with all shut */
  pump: z.enum(['running', 'resting']).optional(),
  /** asked once more in other words when nobody knows (the words' `again`) */
  againIfUnknown: z.literal(true).optional(),
  /** only somebody at the plant can answer it: left out while the caller is elsewhere */
  atPlant: z.literal(true).optional(),
  /** a pressure loss measured with the valve to the house shut */
  isolated: z.literal(true).optional(),
  /** cartridges taken out for it: all of the first of these places that the plant has */
  empties: z.array(placeKind).optional(),
  /** all must hold, or the question is left out */
  when: z.array(condition).default([]),
  /** minutes and trouble of answering, in minutes */
  effortMinutes: minutesFor,
  /** the place it speaks about: its answer stays when work was done elsewhere; without one it speaks about the complaint */
  about: placeKind.optional(),
  /** the job sheet under which it is answered, when something is opened, drained or switched */
  job: id.optional(),
  /** numeric answers: per field, the first band that holds gives the answer id used in the table */
  bands: z.record(z.string(), z.array(band)).optional(),
  /** seen when no cause of the table is there */
  background: signs.default({}),
  /** cause → answer → how often; rows for `nothing-wrong` and `not-listed` may stand here too */
  table: z.record(id, signs).default({}),
  source: z.string().default('common practice'),
});
export type Question = z.infer<typeof question>;

export const actors = [
  'householder',
  'technician',
  'electrician',
  'plumber',
  'laboratory',
] as const;

export const job = z.strictObject({
  by: z.enum(actors),
  minutes: z.number().positive(),
  /** parts and material, in the currency of the rule set */
  money: z.number().nonnegative(),
  /** cause → how often this job ends it */
  cures: z.record(id, frequencyWord).default({}),
  /** one job for each part at fault, or one for the plant */
  perPart: z.boolean().default(false),
  /** a test that cures nothing but answers this question */
  answers: id.optional(),
  /** all must hold, or the job is not named: it would do nothing here, or harm */
  when: z.array(condition).default([]),
  /** what to load on the van */
  van: z.array(id).default([]),
  /** of that, what is left at home where the plant has none of these places */
  vanOnlyFor: z.record(id, z.array(placeKind)).optional(),
  /** the part is new afterwards: its age starts again */
  renews: z.boolean().default(false),
  /** what is left when nothing else is worth trying: it is taken to find and end whatever it is */
  lastResort: z.literal(true).optional(),
  /** leaving it: that ends the trouble only where nothing is there that wants mending */
  mendsNothing: z.literal(true).optional(),
  /** which recent-work answer it counts as afterwards (what it can bring on) */
  countsAs: id.optional(),
  source: z.string().default('common practice'),
});
export type Job = z.infer<typeof job>;

/** When a caution is shown. Any one of the conditions is enough. */
export const caution = z.strictObject({
  when: z.array(
    z.union(
      [
        z.strictObject({ question: id, oneOf: z.array(id) }),
        z.strictObject({ hazard: drinkingHazard, atLeast: z.number() }),
        z.strictObject({ cause: id, atLeast: z.number() }),
        z.strictObject({ warning: id }),
        z.strictObject({ stopped: z.literal(true) }),
        z.strictObject({ household: z.literal(true) }),
        z.strictObject({ job: id }),
        z.strictObject({ licensedJob: z.literal(true) }),
        z.strictObject({ all: z.array(condition).min(1) }),
      ],
      {
        error:
          'needs question + oneOf, hazard + atLeast, cause + atLeast, warning, job, stopped, household, licensedJob or all',
      },
    ),
  ),
});
export type Caution = z.infer<typeof caution>;

export const danger = z.strictObject({
  /** who is called; the words file says how */
  call: z.enum(['emergency', 'electrician', 'technician', 'health-authority', 'plumber']),
  /** drinking advice that goes with it */
  cautions: z.array(id).default([]),
});

export const head = z.strictObject({
  version: z.string().regex(/^\d{4}-\d{2}-\d{2}$/),
  languages: z.array(z.string()).min(1),
  frequencies: z.record(frequencyWord, z.number().min(0).max(1)),
  /** who asks for help: odds of there being nothing wrong and of something this rule set does not hold, against all listed causes */
  asking: z.strictObject({ nothingWrong: z.number().positive(), notListed: z.number().positive() }),
  /** the opening questions in their set order; the rest are chosen by worth */
  order: z.array(id),
  /** what shows by itself what was told: asked right after it, where it can matter */
  lookFirst: z
    .array(
      z.strictObject({
        told: z.strictObject({ question: id, oneOf: z.array(id) }),
        ask: z.array(id).min(1),
      }),
    )
    .default([]),
  /** who told this wants all of it looked over: the opening questions are asked however little each may tell */
  wholeRound: z.strictObject({ question: id, oneOf: z.array(id).min(1) }).optional(),
  /** the question where the caller is, with the answers that they are at the plant and that they are not */
  caller: z.strictObject({ question: id, there: id, away: id }).optional(),
  /** told again on a later day than the last work was proved, it begins anew */
  newTrouble: id.optional(),
  /** answers that say the same: the strongest counts in full, each other one repeats it with this chance */
  sameSaying: z.array(
    z.strictObject({
      repeats: z.number().min(0).max(1),
      /** the question that tells it most exactly: its answer counts in full, however strong the others are */
      full: id.optional(),
      answers: z.array(z.strictObject({ question: id, oneOf: z.array(id) })),
    }),
  ),
  /** readings that replace a soft symptom for the causes they measure */
  replaces: z.array(
    z.strictObject({
      reading: z.enum(['open', 'closed', 'flow']),
      question: id,
      oneOf: z.array(id),
    }),
  ),
  /** minutes it costs to have somebody come, the waiting included, and minutes' worth of one unit of money */
  visitMinutes: z.strictObject({
    technician: z.number(),
    electrician: z.number(),
    plumber: z.number(),
    laboratory: z.number(),
  }),
  minutesPerMoney: z.number().positive(),
  /** minutes that being surer is worth by itself, per natural unit of information: a guess that works is not yet an answer */
  surenessMinutes: z.number().nonnegative(),
  currency: z.string(),
  /** answers that make a case urgent, or one to see to soon */
  urgent: z.array(z.strictObject({ question: id, oneOf: z.array(id) })),
  soon: z.array(z.strictObject({ question: id, oneOf: z.array(id) })),
});
export type Head = z.infer<typeof head>;

export const causesFile = z.record(id, cause);
export const questionsFile = z.record(id, question);
export const jobsFile = z.record(id, job);
export const cautionsFile = z.record(id, caution);
export const dangersFile = z.record(id, danger);

/** A rule set's tables, checked. Words come separately: see words.ts. */
export interface RuleSet {
  readonly head: Head;
  readonly causes: Readonly<Record<string, Cause>>;
  readonly questions: Readonly<Record<string, Question>>;
  readonly jobs: Readonly<Record<string, Job>>;
  readonly cautions: Readonly<Record<string, Caution>>;
  readonly dangers: Readonly<Record<string, z.infer<typeof danger>>>;
}
