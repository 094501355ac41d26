import { z } from 'zod';
import { InputError } from '../common/errors.ts';
import { placeOf } from '../ruleset/finding.ts';
import { fit } from '../ruleset/shape.ts';
import { readSource } from '../ruleset/source.ts';
import type { Files } from '../ruleset/tables.ts';

/**
 * The words of job sheets in one language: `words/<language>/work/*.yaml`. A step's words stand under its id; the
 * householder's line is also what an agent reads aloud. Holes in braces are filled from the plant (holes.ts).
 */

const text = z.string().min(1);

const stepWords = z.strictObject({
  householder: text,
  /** for the agent: what to listen for after the line was read aloud */
  listenFor: text,
  technician: text,
  /** what can happen, what to do, who must do it; shown before the step */
  caution: text.optional(),
  answers: z.record(z.string(), text).default({}),
});
export type StepWords = z.infer<typeof stepWords>;

const sections = {
  steps: stepWords,
  /** short names of conditions, for the line along the top */
  conditions: text,
  /** hole → ways of saying it, by what the plant has there */
  holes: z.record(z.string(), text),
  tools: text,
  /** what a drawing shows, for those who cannot see it */
  drawings: text,
  /** what is said around the steps */
  phrases: text,
};
type Section = keyof typeof sections;

export interface WorkWords {
  readonly steps: Readonly<Record<string, StepWords>>;
  readonly conditions: Readonly<Record<string, string>>;
  readonly holes: Readonly<Record<string, Readonly<Record<string, string>>>>;
  readonly tools: Readonly<Record<string, string>>;
  readonly drawings: Readonly<Record<string, string>>;
  readonly phrases: Readonly<Record<string, string>>;
}

/** What conditions are called; one without a name by its id. */
export const conditionNames = (ids: readonly string[], { conditions }: WorkWords): string[] =>
  ids.map((id) => conditions[id] ?? id);

/**
 * Reads and merges the words of the job sheets.
 * @throws InputError naming file and line of the first thing wrong
 */
export function loadWorkWords(files: Files, language: string): WorkWords {
  const words: Record<Section, Record<string, unknown>> = {
    ...{ steps: {}, conditions: {}, holes: {}, tools: {}, drawings: {}, phrases: {} },
  };
  const folder = `words/${language}/work/`;
  for (const file of Object.keys(files)
    .sort()
    .filter((each) => each.startsWith(folder))) {
    const source = readSource(file, files[file] ?? '');
    const refuse = (line: number, message: string): never => {
      throw new InputError(`${file}:${line}`, message);
    };
    const broken = source.findings[0];
    if (broken) refuse(broken.line, broken.message);
    for (const [name, entries] of Object.entries((source.value ?? {}) as object)) {
      if (!isSection(name))
        return refuse(source.lineOf([name]), `work words have no section "${name}"`);
      for (const id of Object.keys((entries ?? {}) as object)) {
        if (id in words[name]) refuse(source.lineOf([name, id]), `${name} › ${id} stands twice`);
        const checked = fit(sections[name] as z.ZodType<unknown>, source, [name, id]);
        const wrong = checked.findings[0];
        if (wrong) throw new InputError(placeOf(wrong), `${wrong.message}; ${wrong.mend}`);
        words[name][id] = checked.value;
      }
    }
  }
  return words as unknown as WorkWords;
}

const isSection = (name: string): name is Section => Object.hasOwn(sections, name);
