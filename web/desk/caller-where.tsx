import type { Caller } from '../brain/protocol.ts';
import { useArmed } from '../common/use-armed.ts';
import { useSay } from '../common/words.ts';

interface Props {
  readonly caller: Caller;
  readonly onAnswer: (value: string) => void;
}

/** Says once that the caller is not at the plant: what only somebody there can answer waits until it is taken back. */
export function CallerWhere({ caller: { isAway, otherwise }, onAnswer }: Props) {
  const say = useSay();
  const armed = useArmed(otherwise);
  return (
    <button
      type="button"
      class="choice plain caller-where"
      onClick={() => armed && onAnswer(otherwise)}
    >
      <span class="number">w</span> {say(isAway ? 'caller-there-now' : 'caller-not-there')}
    </button>
  );
}
