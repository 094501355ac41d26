import { NO_END } from '../../shared/upkeep/days.ts';
import type { ShownDue } from '../brain/protocol.ts';
import { useSay } from '../common/words.ts';
import { useFormat } from '../drawing/line-view.tsx';

/** Dates, earliest first, each with its interval and its reason. */
export function DueList({ due }: { readonly due: ShownDue['due'] }) {
  const say = useSay();
  const format = useFormat();
  return (
    <ul class="due">
      {due.map(({ part, because, on, from, to, first, text }) => (
        <li key={`${part} ${because}`}>
          <p class={first ? 'due-first' : undefined}>
            {say(from === to ? 'due-on' : to === NO_END ? 'due-without-end' : 'due-between', {
              part,
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
