import { useRef } from 'hono/jsx/dom';
import type { Stopped } from '../../shared/diagnosis/result.ts';
import { useEffect } from '../common/use-effect.ts';
import { useSay } from '../common/words.ts';
import { Paragraphs } from './paragraphs.tsx';

interface Props {
  readonly stopped: Stopped;
  /** left out on pages beside the case, where it is told and not changed */
  readonly onChange?: () => void;
}

/** A danger sign ends the asking: what to do now and whom to call, and nothing beside it. */
export function StopSign({ stopped, onChange }: Props) {
  const say = useSay();
  const heading = useRef<HTMLHeadingElement>(null);
  // wherever the page was scrolled to, this is what must be seen
  useEffect(() => {
    heading.current?.focus();
    scrollTo(0, 0);
  }, []);
  return (
    <section class="stop-sign" role="alert">
      <h2 ref={heading} tabindex={-1}>
        {say('heading-stopped')}
      </h2>
      <Paragraphs text={stopped.call} />
      <p>{say('local-codes')}</p>
      {onChange ? (
        <button type="button" class="choice" onClick={onChange}>
          {say('stop-was-wrong')}
        </button>
      ) : null}
    </section>
  );
}
