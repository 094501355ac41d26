import type { Looked } from '../brain/protocol.ts';
import { chanceCount } from '../common/chance.ts';
import { type Say, useSay } from '../common/words.ts';

/** From here on one cause is named as the likely one; below, the tool says that it does not know yet. */
const NAMED = 0.35;

/** The one sentence that says what is known and how surely. */
export function leadingText({ likely: first, result, earlier }: Looked, say: Say): string {
  if (result.stopped) return say('heading-stopped');
  if (!first || earlier.length < 3 || first.probability < NAMED) return say('not-known');
  if (first.id === 'nothing-wrong') return say('nothing-wrong');
  const cause = { cause: first.name, probability: chanceCount(first.probability, say) };
  return say('most-likely', cause);
}

export function Leading({ looked }: { readonly looked: Looked }) {
  const say = useSay();
  return <p class="leading">{leadingText(looked, say)}</p>;
}
