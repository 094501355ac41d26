import { z } from 'zod';
import type { Finding } from './finding.ts';
import { suggestion } from './nearest.ts';
import { fit } from './shape.ts';
import { keysOf, readSource } from './source.ts';
import type { Files, Place } from './tables.ts';

const id = z.string().regex(/^[a-z0-9-]+$/, 'use small letters, digits and hyphens');
const ids = z.array(id);

/** A case of the trade with what a technician would expect of it: `examples/*.yaml`, by id. See docs/rules.md. */
export const example = z.strictObject({
  /** what happened there, in a sentence */
  tells: z.string().min(1),
  source: z.string().min(1),
  /** the id of a ready-made plant, or a plant written out */
  plant: z.union([id, z.record(z.string(), z.unknown())], {
    error: 'needs the id of a ready-made plant, or a plant with its line',
  }),
  today: z.iso.date('write the day as YYYY-MM-DD'),
  audience: z.enum(['householder', 'agent', 'technician']).default('householder'),
  answers: z.array(z.strictObject({ question: id, value: z.unknown() })).min(1),
  expect: z.strictObject({
    /** the likeliest causes, these and no others before them, in any order */
    leading: ids.min(1).optional(),
    /** how likely the first of them is at least */
    atLeast: z.number().min(0).max(1).optional(),
    /** the jobs the plan begins with, in this order */
    plan: ids.min(1).optional(),
    /** shown, and not shown */
    cautions: ids.default([]),
    noCautions: ids.default([]),
    /** the danger signs that stop it */
    stopped: ids.min(1).optional(),
  }),
});
export type Example = z.infer<typeof example>;

export interface ReadExamples {
  readonly examples: Readonly<Record<string, Example>>;
  readonly findings: readonly Finding[];
  /** where an example, or a field of it, stands */
  readonly at: (id: string, path?: readonly PropertyKey[]) => Place;
}

/** Reads `examples/*.yaml`. What the answers and ids in them mean is found out by running them. */
export function readExamples(files: Files): ReadExamples {
  const findings: Finding[] = [];
  const examples: Record<string, Example> = {};
  const homes = new Map<string, ReturnType<typeof readSource>>();
  for (const file of Object.keys(files).sort()) {
    if (!/^examples\/.*\.ya?ml$/.test(file)) continue;
    const source = readSource(file, files[file] ?? '');
    findings.push(...source.findings);
    for (const name of keysOf(source.value)) {
      const line = source.lineOf([name]);
      const home = homes.get(name);
      if (home) {
        const message = `example ${name} stands twice; the other is in ${home.file}:${home.lineOf([name])}`;
        findings.push({ file, line, message, mend: 'give one of them another id' });
        continue;
      }
      homes.set(name, source);
      const checked = fit(example, source, [name]);
      findings.push(...checked.findings);
      if (checked.value) examples[name] = checked.value;
    }
  }
  return {
    examples,
    findings,
    at: (name, path = []) => {
      const source = homes.get(name);
      return source
        ? { file: source.file, line: source.lineOf([name, ...path]) }
        : { file: 'examples', line: 1 };
    },
  };
}

/** Ids in what an example expects that the rule set does not have. */
export function unknownInExamples(
  { examples, at }: ReadExamples,
  known: {
    readonly causes: readonly string[];
    readonly jobs: readonly string[];
    readonly cautions: readonly string[];
    readonly dangers: readonly string[];
  },
): Finding[] {
  const lists = [
    ['leading', known.causes, 'cause'],
    ['plan', known.jobs, 'job'],
    ['cautions', known.cautions, 'caution'],
    ['noCautions', known.cautions, 'caution'],
    ['stopped', known.dangers, 'danger sign'],
  ] as const;
  return Object.entries(examples).flatMap(([name, { expect }]) =>
    lists.flatMap(([field, ids, what]) =>
      (expect[field] ?? []).flatMap((each, i) =>
        ids.includes(each)
          ? []
          : [
              {
                ...at(name, ['expect', field, i]),
                message: `example ${name}: there is no ${what} "${each}"`,
                mend: suggestion(each, ids, `take it out`),
              },
            ],
      ),
    ),
  );
}
