import { z } from 'zod';
import type { Actor } from '../diagnosis/result.ts';
import { placeKind } from '../ruleset/cause.ts';
import { drinkingHazard } from '../ruleset/hazard.ts';
import { actors } from '../ruleset/schema.ts';

/**
 * What the job sheets of a rule set may hold: tables without words, in `work/*.yaml`. A job is a list of steps; a step
 * says what is physically done (`does`), which conditions it needs, makes and loses, and what the answers to it mean.
 * The proof (prove.ts) trusts `does` and `shows` and nothing else: conditions are claims, and are checked against them.
 */

const id = z.string().regex(/^[a-z0-9-]+$/, 'use small letters, digits and hyphens');
const ids = z.array(id).default([]);

/** Everything a step can physically do to the plant. What each does to the world is in world.ts. */
const acts = [
  'switch-off',
  'lock-power',
  'lock-main-switch',
  'power-on',
  'shut-supply',
  'shut-second-valve',
  'lower-tank',
  'crack-supply',
  'open-supply',
  'open-second-valve',
  'shut-mains',
  'open-mains',
  'shut-far',
  'drain-far',
  'open-far',
  'open-tap',
  'shut-tap',
  'press-bleed',
  'open-drain',
  'shut-drain',
  'let-air-out',
  'check-leaks',
  'uv-off',
  'uv-cool',
  'uv-on',
  'open-wetted',
  'close-wetted',
  'open-live',
  'close-live',
  'open-lamp',
  'close-lamp',
  'open-gas',
  'close-gas',
  'release-gas',
  'fill-gas',
  'open-tank',
  'close-tank',
  'open-bypass',
  'shut-bypass',
  'run-water',
  'dose-line',
  'dose-tank',
  'flush-line',
] as const;
export const act = z.enum(acts);
export type Act = z.infer<typeof act>;

/** Facts about the plant that a condition claims. */
const facts = [
  'pump-dead',
  'supply-shut',
  'far-shut',
  'no-pressure',
  'no-voltage',
  'lamp-cold',
  'wetted-open',
  'wetted-closed',
  'gas-released',
  'tight',
  'air-out',
  'lamp-lit',
] as const;
export const fact = z.enum(facts);
export type Fact = z.infer<typeof fact>;

/** What an answer shows about the plant, and through what it was seen: one means of seeing may be wrong. */
const means = [
  'tap',
  'bleed',
  'gauge',
  'drain',
  'volume',
  'probe',
  'pump',
  'tester',
  'lamp',
  'eye',
] as const;
const shows = z.strictObject({
  by: z.enum(means),
  fact: z.enum(['no-pressure', 'pressure', 'pump-dead', 'pump-live', 'no-voltage', 'voltage']),
});
export type Shows = z.infer<typeof shows>;

/** When a step belongs on this plant's sheet: every named feature must have one of the values. */
const when = z.strictObject({
  supply: z.array(z.enum(['valve', 'tank-cock', 'lift', 'none'])).optional(),
  secondValve: z.boolean().optional(),
  canIsolate: z.boolean().optional(),
  canSee: z.boolean().optional(),
  far: z.boolean().optional(),
  bleed: z.boolean().optional(),
  gauge: z.boolean().optional(),
  gauges: z.boolean().optional(),
  gaugeBeforeValve: z.boolean().optional(),
  drain: z.boolean().optional(),
  vessel: z.array(z.enum(['none', 'inside', 'behind'])).optional(),
  uv: z.array(z.enum(['none', 'before', 'here', 'after'])).optional(),
  carbonAfterUv: z.boolean().optional(),
  carbon: z.boolean().optional(),
  bleeds: z.boolean().optional(),
  bypass: z.boolean().optional(),
  pump: z.boolean().optional(),
  submersible: z.boolean().optional(),
  control: z
    .array(z.enum(['pressure-switch', 'flow-controller', 'variable-speed', 'none']))
    .optional(),
  mains: z.boolean().optional(),
  strainer: z.boolean().optional(),
  footValve: z.boolean().optional(),
  trade: z.boolean().optional(),
});
export type When = z.infer<typeof when>;

/** Shared by a step as a whole and by one of its answers. */
const outcome = {
  does: z.array(act).default([]),
  makes: ids,
  loses: ids,
  /** raises or earns back the water-safety advice for this hazard */
  raises: z.array(drinkingHazard).default([]),
  earns: z.array(drinkingHazard).default([]),
  /** ends the sheet here: everything back in service, or left safe for somebody else */
  ends: z.enum(['done', 'handed-over']).optional(),
  /** of the last step ticked: the job that goes on from here, or must come first */
  leadsTo: id.optional(),
  /** it was tried and must not be tried again: the plan leaves this job out until other work was done */
  notAgain: z.literal(true).optional(),
};

export const stepAnswer = z.strictObject({
  ...outcome,
  when: when.default({}),
  shows: shows.optional(),
  /** there is nothing to write down with this answer, though the step has an entry */
  noEntry: z.literal(true).optional(),
  /** goes aside to these steps; the step that asked is not done */
  branch: id.optional(),
});
export type StepAnswer = z.infer<typeof stepAnswer>;

/** Pressures a plant is set to, as holes.ts finds them. */
export const plantPressures = ['gas', 'cutIn', 'cutOut'] as const;

const inputs = ['readings-closed', 'readings-open', 'flow', 'value', 'words'] as const;

export const step = z.strictObject({
  id,
  /** whose words it uses, when the same thing is done twice on one sheet */
  words: id.optional(),
  when: when.default({}),
  by: z.enum(actors).optional(),
  minutes: z.number().nonnegative().default(1),
  /** its minutes must go by before it is done; they count from when it was come to */
  waits: z.boolean().default(false),
  tools: ids,
  parts: ids,
  /** the place to get ready all tools and parts of the sheet */
  gathers: z.boolean().default(false),
  needs: ids,
  /** left out while this condition does not stand */
  if: id.optional(),
  ...outcome,
  /** without answers a step is ticked; with them one must be chosen */
  answers: z.record(id, stepAnswer).default({}),
  /** a reading or note written down with the tick */
  input: z.enum(inputs).optional(),
  /** a test's result goes to this question of the case */
  question: id.optional(),
  /** the pressure of the plant that the figure typed here must be: what it was set to */
  setsTo: z.enum(plantPressures).optional(),
  /** its result tells how the plant was found, not how the work left it */
  asFound: z.boolean().default(false),
  /** its words hold a caution that is shown before the step */
  caution: z.boolean().default(false),
  drawing: id.optional(),
  sources: ids,
});
export type StepTable = z.infer<typeof step>;

const useBlock = z.strictObject({ use: id });
const stepList = z.array(z.union([useBlock, step])).min(1);
export type StepList = z.infer<typeof stepList>;

export const branch = z.strictObject({
  /** afterwards: ask again what sent us here, go on after it, or leave it safe for somebody else */
  then: z.enum(['retry', 'go-on', 'hand-over']),
  steps: stepList,
});

export const condition = z.strictObject({
  /** what it claims of the plant; the proof holds it to this */
  claims: fact.optional(),
  /** made by this many of these conditions together, instead of by a step */
  atLeast: z.number().int().positive().optional(),
  of: ids,
  /** on other plants there is nothing to make, and needing it needs nothing */
  when: when.default({}),
  /** goes when one of these goes */
  lostWith: ids,
  /** while it stands there is no going back: what is lost is made again by this branch */
  mends: id.optional(),
  /** how the plant was left: told to whoever goes on */
  tellNext: z.literal(true).optional(),
  /** after a break this long it must be checked again */
  checkAgainAfterMinutes: z.number().positive().optional(),
});
export type ConditionTable = z.infer<typeof condition>;

/** How the plant is found when the job begins, where it is not in service. */
const found = z.enum(['uv-off', 'power-off', 'bypass-open', 'supply-shut', 'unsafe-water']);
export type Found = z.infer<typeof found>;

export const jobSheet = z.strictObject({
  /** the place worked on: valves, bleed and gauge are looked for around it */
  at: placeKind,
  found: z.array(found).default([]),
  steps: stepList,
  sources: ids,
});
/** A sheet with who does the job, which stands in the table of jobs alone. */
export type JobSheetTable = z.infer<typeof jobSheet> & { readonly by: Actor };

export const source = z.strictObject({ title: z.string(), address: z.string().optional() });

/** The sections a file of `work/` may hold, each by id. */
export const workSections = {
  conditions: condition,
  blocks: stepList,
  branches: branch,
  jobs: jobSheet,
  sources: source,
};
export type WorkSection = keyof typeof workSections;

/** All job sheets of a rule set. */
export interface WorkRules {
  readonly conditions: Readonly<Record<string, ConditionTable>>;
  readonly blocks: Readonly<Record<string, StepList>>;
  readonly branches: Readonly<Record<string, z.infer<typeof branch>>>;
  readonly jobs: Readonly<Record<string, JobSheetTable>>;
  readonly sources: Readonly<Record<string, z.infer<typeof source>>>;
}
