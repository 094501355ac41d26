import { useRef } from 'hono/jsx/dom';
import type { Step } from '../../shared/interview/step.ts';
import { onLink } from '../common/router.ts';
import { useEffect } from '../common/use-effect.ts';
import { useSay } from '../common/words.ts';
import { Leading, named } from '../ranking/leading.tsx';
import { Plan } from '../ranking/plan.tsx';
import type { OpenCase } from '../store/use-case.ts';
import { Paragraphs } from './paragraphs.tsx';

interface Props {
  readonly open: OpenCase;
  readonly base: string;
  readonly readOnly: boolean;
  readonly onMeasure: (step: Step) => void;
}

/** Nothing more is worth asking: what was found, what to do, and what could still be measured. */
export function Finding({ open, base, readOnly, onMeasure }: Props) {
  const say = useSay();
  const { looked } = open;
  const heading = useRef<HTMLHeadingElement>(null);
  // the answer that was pressed last is gone
  useEffect(() => heading.current?.focus({ preventScroll: true }), []);
  const first = named(open);
  return (
    <section class="finding">
      <h2 ref={heading} tabindex={-1}>
        {say('finding')}
      </h2>
      <Leading open={open} />
      {first ? <Paragraphs text={first.says} /> : null}
      <Plan open={open} base={base} />
      <a class="choice" href={`${base}/report`} onClick={onLink}>
        {say('to-report')}
      </a>
      {readOnly ? null : (
        <details class="more">
          <summary>{say('measure-more')}</summary>
          <ul class="lines">
            {looked.others.map(({ key, label, step }) => (
              <li key={key}>
                <button type="button" class="line" onClick={() => onMeasure(step)}>
                  {label}
                </button>
              </li>
            ))}
          </ul>
        </details>
      )}
    </section>
  );
}
