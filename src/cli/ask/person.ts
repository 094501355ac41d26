import type { Field } from '../../../shared/interview/form.ts';

/** One thing put to a person. */
export interface Prompt {
  readonly text: string;
  /** how the answer may be typed */
  readonly hint: string;
  readonly field: Field;
}

/** Whoever answers: at a terminal, or through a pipe. What comes back is typed text in both cases. */
export interface Person {
  say(text: string): void;
  /** null when nobody is there any more */
  answer(prompt: Prompt): Promise<string | null>;
}
