import type { Looked } from '../brain/protocol.ts';
import { chanceCount } from '../common/chance.ts';
import { type Say, useSay } from '../common/words.ts';
import type { OpenCase } from '../store/use-case.ts';
import { isCured, justDone } from './cured.ts';
import { isTooEarly } from './too-early.ts';

/** From here on one cause is named as the likely one; below, the tool says that it does not know yet. */
const NAMED = 0.35;
/** The cause that may be named; null while none is likely enough. */
export function named({ looked, kept }: OpenCase): Looked['likely'] | null {
  const { likely } = looked;
  return likely && !isCured(kept) && !isTooEarly(looked) && likely.probability >= NAMED
    ? likely
    : null;
}

/** The one sentence that says what is known and how surely. */
export function leadingText(open: OpenCase, say: Say): string {
  const { looked, kept } = open;
  if (looked.result.stopped) return say('heading-stopped');
  if (isCured(kept)) return say('did-cured', { job: justDone(kept)?.name ?? '' });
  if (isTooEarly(looked)) return say('nothing-told');
  const first = named(open);
  if (!first) return say('not-known');
  if (first.id === 'nothing-wrong') return say('nothing-wrong');
  const cause = { cause: first.name, probability: chanceCount(first.probability, say) };
  return say('most-likely', cause);
}

export function Leading({ open }: { readonly open: OpenCase }) {
  const say = useSay();
  return <p class="leading">{leadingText(open, say)}</p>;
}
