import { dangerQuestion } from '../../shared/interview/danger.ts';
import { type Field, optionsOf } from '../../shared/interview/form.ts';
import { type Reply, readReply, typingOf } from '../../shared/interview/reply.ts';
import type { Loaded } from './cards.ts';
import type { CaseNow } from './protocol.ts';

/** What a line in the person's own words comes to; fetched when the first one is typed. */
export function readTyped(
  { rules, words }: Loaded,
  now: CaseNow,
  field: Field,
  line: string,
): Reply {
  const dangers = optionsOf(dangerQuestion(rules), Object.keys(rules.dangers), words);
  return readReply(line, field, typingOf(words, dangers), now.units);
}
