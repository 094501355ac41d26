import { useSay } from '../common/words.ts';
import { justDone } from '../ranking/cured.ts';
import type { KeptCase } from '../store/kept.ts';

/** What the job just done came to, since the questions begin anew after it. */
export function AfterWork({ kept }: { readonly kept: KeptCase }) {
  const say = useSay();
  const last = justDone(kept);
  if (!last?.proof) return null;
  const outcome = say(`did-${last.proof.outcome}`, { job: last.name });
  return <p class="remark">{say('after-work', { done: outcome })}</p>;
}
