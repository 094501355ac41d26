import { fill } from '../../../shared/diagnosis/say.ts';
import type { WorkWords } from '../../../shared/work/words.ts';
import type { Say } from '../io.ts';
import type { Knowledge } from '../knowledge.ts';

/** What the command line knows of work: also how its steps are spoken. */
export interface SpokenWork extends Knowledge {
  readonly workWords: WorkWords;
}

/** Says phrases out of the words of the job sheets, and of the interview where those have none of their own. */
export function workSay({ words, workWords }: SpokenWork): Say {
  return (key, holes = {}) => {
    const pattern = workWords.phrases[key] ?? words.phrases[key];
    if (pattern === undefined) throw new Error(`the words have no phrase "${key}"`);
    return fill(pattern, holes);
  };
}
