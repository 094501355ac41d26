import { dangerQuestion } from '../../shared/interview/danger.ts';
import { type Field, optionsOf } from '../../shared/interview/form.ts';
import { type Reply, readReply, type Typing, typingOf } from '../../shared/interview/reply.ts';
import type { Loaded } from './cards.ts';
import type { CaseNow } from './protocol.ts';

/** What a line in the person's own words comes to; fetched when the first one is typed. */
export function readTyped(
  { rules, words }: Loaded,
  now: CaseNow,
  field: Field,
  line: string,
): Reply {
  return readReply(line, field, typingFor({ rules, words }), now.units);
}

// how the dangers are said is made ready once, and not with every line
const kept = new WeakMap<Loaded['words'], Typing>();

function typingFor({ rules, words }: Loaded): Typing {
  const known = kept.get(words);
  if (known) return known;
  const dangers = optionsOf(dangerQuestion(rules), Object.keys(rules.dangers), words);
  const typing = typingOf(words, dangers);
  kept.set(words, typing);
  return typing;
}
