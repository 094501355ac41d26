import { lineOf, solveLine } from '../../shared/hydraulics/line.ts';
import { resolvePlant } from '../../shared/plant/defaults.ts';
import type { Plant } from '../../shared/plant/schema.ts';
import type { RuleSet } from '../../shared/ruleset/schema.ts';
import { type Condition, putIn, soundCondition } from './condition.ts';
import { drawFaults, type Faults, type Sampling } from './draw-faults.ts';
import { heardComplaint } from './heard.ts';
import { perturbed } from './perturb.ts';
import { drawPlant } from './plants.ts';
import { type Random, randomOf } from './random.ts';
import { lpmOf } from './running.ts';
import { type Signs, signsOf } from './symptoms.ts';

/** One virtual supply with what is wrong with it, and what its people noticed before anybody asked. */
export interface World {
  readonly index: number;
  readonly gauges: number;
  readonly plant: Plant;
  readonly told: Plant;
  readonly faults: Faults;
  readonly condition: Condition;
  /** the generator's tables, out of which this world's signs, rates and cures come */
  readonly tables: RuleSet;
  readonly signs: Signs;
  /** the tap tried is the weak one, where one outlet is restricted */
  readonly weakTap: boolean;
  readonly noticed: { readonly smell: string; readonly taste: string; readonly look: string };
  readonly complaint: readonly string[];
  readonly random: Random;
}

export interface Wanted {
  readonly seed: number;
  readonly sampling: Sampling;
  /** number of gauges, or null for any from none to four */
  readonly gauges: number | null;
}

/** Worlds that share one perturbed set of tables, as one region's plants and people would. */
const WORLDS_PER_TABLES = 25;
let lastTables: { readonly key: string; readonly tables: RuleSet } | null = null;

/** The tables of the generator for one world. */
export function tablesFor(rules: RuleSet, seed: number, index: number): RuleSet {
  const region = Math.floor(index / WORLDS_PER_TABLES);
  const key = `${seed} ${region}`;
  if (lastTables?.key !== key)
    lastTables = { key, tables: perturbed(rules, randomOf(seed, region, 17)) };
  return lastTables.tables;
}

/** Draws the world of this index: the same for the same seed, whatever was drawn before. */
export function worldOf(rules: RuleSet, { seed, sampling, gauges }: Wanted, index: number): World {
  const tables = tablesFor(rules, seed, index);
  const random = randomOf(seed, index);
  const count = gauges ?? index % 5;
  for (;;) {
    const { truth, told } = drawPlant(random, count);
    if (!isUseful(truth)) continue;
    const faults = drawFaults(truth, tables, sampling, random);
    const causes = [...faults.sought, ...faults.overdue].map(({ cause }) => cause);
    const signs = signsOf(tables, causes, random);
    const noticed = {
      smell: signs.worst('smell'),
      taste: signs.worst('taste'),
      look: signs.worst('look'),
    };
    const weakTap =
      faults.sought.some(({ cause }) => cause === 'outlet-restricted') && random.chance(0.5);
    // A fault so slight that nobody notices brings nobody to ask: its severity is drawn again.
    for (let tries = 0; tries < 6; tries++) {
      const condition = soundCondition(truth, random);
      for (const fault of faults.sought) putIn(fault, condition, truth, random);
      const world = {
        ...{
          index,
          gauges: truth.line.filter((p) => p.kind === 'gauge').length,
          plant: truth,
          told,
          faults,
        },
        ...{ condition, tables, signs, weakTap, noticed, random, complaint: [] },
      };
      const complaint = complaintOf(world, random);
      if (complaint.length === 0) continue;
      // What runs elsewhere in daily life is mostly shut for a test.
      if (random.chance(0.7)) condition.hiddenTaps = 0;
      return { ...world, complaint };
    }
  }
}

/** A plant that gives its house water worth the name while nothing is wrong. */
function isUseful(plant: Plant): boolean {
  return cleanFlow(plant) > 6;
}

const cleanFlows = new WeakMap<Plant, number>();

/** L/min of one ordinary tap with nothing wrong. */
export function cleanFlow(plant: Plant): number {
  const known = cleanFlows.get(plant);
  if (known !== undefined) return known;
  const flow = lpmOf(solveLine(lineOf(resolvePlant(plant).plant), { open: 1 }));
  cleanFlows.set(plant, flow);
  return flow;
}

/** What the line itself does is said by `heardComplaint`; the rest of the complaint comes by the tables. */
const BY_TABLE = ['noise', 'leak', 'tank-drops', 'alarm', 'routine'];

/** Few faults are met by a routine look alone, before anybody noticed them. */
const ROUTINE_FINDS = 0.3;
const faultToHear = ({ faults }: World) => faults.sought.length > 0;

/**
 * What people say. Somebody asks because of a fault that is sought, so something of it is always said; what a lamp past
 * its life brings and what lies in the background come besides. Empty where nothing of the faults was noticed.
 */
function complaintOf(world: World, random: Random): string[] {
  const { signs, noticed, tables, faults } = world;
  const id = 'complaint';
  const sought = signsOf(
    tables,
    faults.sought.map(({ cause }) => cause),
    random,
  );
  const said = new Set(heardComplaint(world, random));
  for (const item of BY_TABLE) if (random.chance(sought.causedChance(id, item))) said.add(item);
  for (const [item, sense] of Object.entries(noticed)) {
    // Who noticed something mostly says so; the tables' chance is kept over all.
    const noticedIt = sense !== 'none' && sense !== 'clear';
    const p = sought.causedChance(id, item);
    if (random.chance(noticedIt ? Math.min(0.97, 1.3 * p) : 0.05 * p)) said.add(item);
  }
  const routineOnly = said.size === 1 && said.has('routine');
  if (said.size === 0) return [];
  if (routineOnly && faultToHear(world) && !random.chance(ROUTINE_FINDS)) return [];
  const besides = (item: string) => {
    const caused = BY_TABLE.includes(item) ? signs.causedChance(id, item) : 0;
    return (
      random.chance(faults.overdue.length > 0 ? caused : 0) ||
      random.chance(signs.groundChance(id, item))
    );
  };
  const answers = tables.questions[id]?.answers ?? [];
  return answers.filter((item) => said.has(item) || besides(item));
}
