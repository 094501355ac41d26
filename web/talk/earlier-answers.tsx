import { useRef } from 'hono/jsx/dom';
import type { Step } from '../../shared/interview/step.ts';
import type { Earlier } from '../brain/protocol.ts';
import { useSay } from '../common/words.ts';

interface Props {
  readonly earlier: readonly Earlier[];
  readonly readOnly: boolean;
  readonly onChange: (step: Step) => void;
}

/** What was answered, as short lines; a touch changes one, and everything after it follows. */
export function EarlierAnswers({ earlier, readOnly, onChange }: Props) {
  const say = useSay();
  const list = useRef<HTMLDetailsElement>(null);
  if (earlier.length === 0) return null;
  // the list closes, so that what is asked again is what is seen
  const change = (step: Step): void => {
    if (list.current) list.current.open = false;
    scrollTo(0, 0);
    onChange(step);
  };
  return (
    <details ref={list} class="earlier">
      <summary>{say('answered-so-far', { n: earlier.length })}</summary>
      <ul>
        {earlier.map(({ key, label, text, step }) => (
          <li key={key}>
            <button type="button" class="line" disabled={readOnly} onClick={() => change(step)}>
              <span class="label">{label}</span>
              <span class="given">{text}</span>
              <span class="change">{say('change')}</span>
            </button>
          </li>
        ))}
      </ul>
    </details>
  );
}
