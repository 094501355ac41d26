import { z } from 'zod';
import { example } from '../../shared/ruleset/examples.ts';
import {
  causesFile,
  cautionsFile,
  dangersFile,
  head,
  jobsFile,
  questionsFile,
} from '../../shared/ruleset/schema.ts';
import { wordsSchema } from '../../shared/ruleset/words.ts';
import { workSections } from '../../shared/work/schema.ts';

const files = {
  ruleset: head,
  causes: causesFile,
  questions: questionsFile,
  jobs: jobsFile,
  cautions: cautionsFile,
  dangers: dangersFile,
  examples: z.record(z.string(), example),
  words: wordsSchema.partial(),
  work: z
    .strictObject(
      Object.fromEntries(
        Object.entries(workSections).map(([name, entry]) => [name, z.record(z.string(), entry)]),
      ),
    )
    .partial(),
};

/** The kinds of file there is a schema for. */
export const schemaNames = Object.keys(files) as (keyof typeof files)[];

/** JSON Schema (draft 2020-12) of one kind of file, as it is written: what may be left out need not stand there. */
export const jsonSchemaOf = (name: keyof typeof files): object =>
  z.toJSONSchema(files[name] as z.ZodType, { io: 'input', unrepresentable: 'any' });
