import type { Answer, Audience, Costs } from '../case/answer.ts';
import type { RuleSet } from '../ruleset/schema.ts';
import type { Words } from '../ruleset/words.ts';
import type { Result } from './result.ts';

/** One case as the command line and the server take it. */
export interface Case {
  readonly plant: unknown;
  readonly answers: readonly Answer[];
  readonly today?: string | undefined;
  readonly audience?: Audience | undefined;
  readonly costs?: Costs | undefined;
}

/**
 * Judges one case under one rule set, in the words of one language.
 * @param systemDay the calendar day used when neither the case nor its answers carry one
 * @throws InputError naming the place of the first thing that cannot be used
 */
export declare function diagnose(input: Case, rules: RuleSet, words: Words, systemDay: string): Result;
