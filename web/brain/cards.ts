import { sayReadings } from '../../shared/diagnosis/say.ts';
import { formOf } from '../../shared/interview/form.ts';
import { type Given, type Step, stepKey, unknownOf } from '../../shared/interview/step.ts';
import type { Plant } from '../../shared/plant/schema.ts';
import type { RuleSet } from '../../shared/ruleset/schema.ts';
import type { Words } from '../../shared/ruleset/words.ts';
import type { WorkRules } from '../../shared/work/schema.ts';
import type { WorkWords } from '../../shared/work/words.ts';
import { sayWith } from '../common/say.ts';
import type { Card, CaseNow } from './protocol.ts';

/** What was loaded: tables and words of one language. */
export interface Loaded {
  readonly rules: RuleSet;
  readonly words: Words;
}

/** Job sheets and their words, loaded after the first screen. */
export interface Sheets {
  readonly work: WorkRules;
  readonly workWords: WorkWords;
}

interface Asking {
  readonly step: Step;
  readonly text?: string;
  readonly why?: string;
  readonly given?: Given | undefined;
}

/** One question with its fields, in the words for who listens. */
export function cardOf(
  { rules, words }: Loaded,
  { audience }: Pick<CaseNow, 'audience'>,
  plant: Plant,
  { step, text, why, given }: Asking,
): Card {
  const say = sayWith(words.phrases);
  const table = rules.questions[step.question];
  const spoken = words.questions[step.question];
  const gauges = plant.line.flatMap((part) => (part.kind === 'gauge' ? [part.id] : []));
  const job = table?.job;
  return {
    step,
    key: stepKey(step),
    short: spoken?.short ?? step.question,
    text: text ?? sayReadings(words, step.taps, audience) ?? spoken?.ask[audience] ?? step.question,
    why: why ?? spoken?.why ?? '',
    showMe: spoken?.showMe ?? null,
    fields: formOf(step, { gauges }, plant, rules, words, say).fields,
    job: job === undefined ? null : { id: job, name: words.jobs[job]?.name ?? job },
    given: given?.value,
    unknown: unknownOf(step),
  };
}
