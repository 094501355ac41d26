import { z } from 'zod';
import { InputError } from '../common/errors.ts';
import { named } from '../common/named.ts';
import { placeKind } from '../ruleset/cause.ts';
import { type Finding, placeOf } from '../ruleset/finding.ts';
import type { RuleSet } from '../ruleset/schema.ts';
import { fit } from '../ruleset/shape.ts';
import { readSource } from '../ruleset/source.ts';
import type { Files } from '../ruleset/tables.ts';

/** The tables of `upkeep.yaml`: lives, intervals and limits, each with its source. */

const id = z.string().regex(/^[a-z0-9-]+$/, 'use small letters, digits and hyphens');
const positive = z.number().positive();
const share = z.number().min(0).max(1);
const source = z.string().default('common practice');

export const upkeepRulesSchema = z.strictObject({
  /** medium → the job that renews its cartridge, and months until it is due by date */
  lives: z.record(id, z.strictObject({ job: id, months: positive, source })),
  lamp: z.strictObject({ job: id, hours: positive, hoursPerDay: positive.max(24), source }),
  dose: z.strictObject({
    classesMjCm2: z.array(positive).min(1),
    uvtPercent: positive.max(100),
    sleeveLossPerYear: share,
    sleeveJobs: z.array(id),
    source,
  }),
  inspections: z.array(
    z.strictObject({ id, in: placeKind, months: positive, jobs: z.array(id), source }),
  ),
  pump: z.strictObject({ headShare: share, job: id }),
  vessel: z.strictObject({ underCutInBar: positive, jobs: z.array(id) }),
  gaugeJobs: z.array(id),
  buying: z.strictObject({
    daysBefore: z.number().nonnegative(),
    /** ids of what jobs take on the van and bring back */
    carried: z.array(id).default([]),
  }),
  fixedDropBar: positive,
});
export type UpkeepRules = z.infer<typeof upkeepRulesSchema>;

const FILE = 'upkeep.yaml';

/** Reads `upkeep.yaml` and compares its jobs with the rule set's; without `rules`, `findings` say why. */
export function readUpkeepRules(
  files: Files,
  ruleSet: RuleSet,
): { readonly rules?: UpkeepRules; readonly findings: readonly Finding[] } {
  const text = files[FILE];
  if (text === undefined) {
    const mend = 'copy it from the version before';
    return { findings: [{ file: FILE, line: 1, message: 'the file is missing', mend }] };
  }
  const read = readSource(FILE, text);
  if (read.findings.length > 0) return { findings: read.findings };
  const { value, findings } = fit(upkeepRulesSchema, read, []);
  if (!value) return { findings };
  const unknown = jobsIn(value)
    .filter(({ job }) => !named(ruleSet.jobs, job))
    .map(({ job, path }) => ({
      file: FILE,
      line: read.lineOf(path),
      message: `${path.join(' › ')}: there is no job "${job}"`,
      mend: 'use an id of jobs.yaml',
    }));
  const taken = new Set(Object.values(ruleSet.jobs).flatMap((job) => job.van));
  value.buying.carried.forEach((item, i) => {
    if (taken.has(item)) return;
    const path = ['buying', 'carried', i];
    const message = `${path.join(' › ')}: no job takes "${item}" on the van`;
    unknown.push({
      file: FILE,
      line: read.lineOf(path),
      message,
      mend: 'use an id of a `van` list',
    });
  });
  return unknown.length > 0 ? { findings: unknown } : { rules: value, findings: [] };
}

/** Builds the tables, or throws an InputError naming file and line of the first thing wrong. */
export function loadUpkeepRules(files: Files, ruleSet: RuleSet): UpkeepRules {
  const { rules, findings } = readUpkeepRules(files, ruleSet);
  const first = findings[0];
  if (rules) return rules;
  throw new InputError(
    first ? placeOf(first) : FILE,
    first ? `${first.message}; ${first.mend}` : 'cannot be read',
  );
}

function jobsIn(rules: UpkeepRules): { job: string; path: (string | number)[] }[] {
  return [
    ...Object.entries(rules.lives).map(([medium, life]) => ({
      job: life.job,
      path: ['lives', medium, 'job'],
    })),
    { job: rules.lamp.job, path: ['lamp', 'job'] },
    { job: rules.pump.job, path: ['pump', 'job'] },
    ...rules.dose.sleeveJobs.map((job, i) => ({ job, path: ['dose', 'sleeveJobs', i] })),
    ...rules.vessel.jobs.map((job, i) => ({ job, path: ['vessel', 'jobs', i] })),
    ...rules.gaugeJobs.map((job, i) => ({ job, path: ['gaugeJobs', i] })),
    ...rules.inspections.flatMap((one, i) =>
      one.jobs.map((job, j) => ({ job, path: ['inspections', i, 'jobs', j] })),
    ),
  ];
}
