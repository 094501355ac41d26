import { fill } from '../../shared/diagnosis/say.ts';
import type { RuleSet } from '../../shared/ruleset/schema.ts';
import type { Words } from '../../shared/ruleset/words.ts';
import type { WorkRules } from '../../shared/work/schema.ts';
import type { Say } from './io.ts';

/** A rule set, its job sheets, and its words in the language spoken. */
export interface Knowledge {
  readonly rules: RuleSet;
  readonly work: WorkRules;
  readonly words: Words;
  /** whose words they are, and whose decimal sign figures for people carry; left out: a point, as in files */
  readonly language?: string;
}

/** Says phrases out of the words of one language. */
export function sayIn(words: Words): Say {
  return (key, holes = {}) => {
    const pattern = words.phrases[key];
    if (pattern === undefined) throw new Error(`the words have no phrase "${key}"`);
    return fill(pattern, holes);
  };
}
