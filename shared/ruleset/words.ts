import { z } from 'zod';

/**
 * The words of a rule set in one language: `words/<language>/*.yaml`. Texts are Markdown; `{name}` is filled in by the
 * code. The three ways of speaking: householder (plain, second person), agent (a line to read aloud in quotes, then
 * what to listen for), technician (terse, figures first). A missing audience falls back to the householder's words.
 */
const text = z.string().min(1);
const byAudience = z.strictObject({ householder: text, agent: text, technician: text });

const causeWords = z.strictObject({
  /** short name for a list ("blocked sediment cartridge") */
  name: text,
  /** one sentence of what is going on, where the part is and what it looks like */
  says: byAudience,
});

const answerWords = z.strictObject({
  label: text,
  /** other ways people say it, for typed answers */
  alsoSaid: z.array(text).default([]),
});

const questionWords = z.strictObject({
  /** few words, for lists of what was answered ("Smell") */
  short: text,
  ask: byAudience,
  why: text,
  /** how and where to look */
  showMe: text.optional(),
  /** the danger question asked once more in other words */
  again: text.optional(),
  /** what an agent asks instead of a caller who is not at the plant */
  afar: text.optional(),
  answers: z.record(z.string(), answerWords).default({}),
});

const jobWords = z.strictObject({
  name: text,
  /** where a technician is not told to call one */
  technicianName: text.optional(),
  /** what to see when it worked */
  lookFor: byAudience,
});

export const wordsSchema = z.strictObject({
  causes: z.record(z.string(), causeWords),
  questions: z.record(z.string(), questionWords),
  jobs: z.record(z.string(), jobWords),
  /** by caution id */
  cautions: z.record(z.string(), byAudience),
  /** by danger sign: what to do now and whom to call; and the latter alone, in few words */
  dangers: z.record(z.string(), z.strictObject({ call: byAudience, whom: text })),
  /** by plant warning id */
  warnings: z.record(z.string(), text),
  /** by what goes on the van */
  van: z.record(z.string(), text),
  /** words for the same thing, by the name under which `alsoSaid` uses them: {smells} */
  synonyms: z.record(z.string(), z.array(text)),
  /** everything else that is said: sentence patterns with {holes}, by key */
  phrases: z.record(z.string(), text),
});
export type Words = z.infer<typeof wordsSchema>;
export type Audience = 'householder' | 'agent' | 'technician';
