import type { Plant } from '../../shared/plant/schema.ts';
import { NO_END } from '../../shared/upkeep/days.ts';
import type { ShownDue } from '../brain/protocol.ts';
import { labelOf } from '../common/part-name.ts';
import { useFormat } from '../common/use-format.ts';
import { useSay } from '../common/words.ts';
import { today } from '../store/case-now.ts';

interface Props {
  readonly due: ShownDue['due'];
  readonly plant: Plant;
}

/** Dates, earliest first, each with its interval and its reason; what is late already is said to be. */
export function DueList({ due, plant }: Props) {
  const say = useSay();
  const format = useFormat();
  return (
    <ul class="due">
      {due.map(({ part, because, on, from, to, first, text }) => (
        <li key={`${part} ${because}`}>
          <p class={first ? 'due-first' : undefined}>
            {say(keyFor(on, from, to), {
              part: labelOf(part, plant, say),
              on: format.day(on),
              from: format.day(from),
              to: format.day(to),
            })}
          </p>
          <p class="small">{text}</p>
        </li>
      ))}
    </ul>
  );
}

function keyFor(on: string, from: string, to: string): string {
  if (on < today()) return 'due-overdue';
  if (from === to) return 'due-on';
  return to === NO_END ? 'due-without-end' : 'due-between';
}
