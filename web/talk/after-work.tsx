import type { Looked } from '../brain/protocol.ts';
import { useSay } from '../common/words.ts';
import type { KeptCase } from '../store/kept.ts';
import { afterWorkText } from './after-work-text.ts';

interface Props {
  readonly kept: KeptCase;
  readonly looked: Looked;
}

/** What the job just done came to, since the questions begin anew after it. */
export function AfterWork({ kept, looked }: Props) {
  const text = afterWorkText(kept, looked, useSay());
  return text === null ? null : <p class="remark">{text}</p>;
}
