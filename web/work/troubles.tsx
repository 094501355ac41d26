import { useState } from 'hono/jsx/dom';
import type { Option } from '../../shared/interview/match.ts';
import type { WorkView } from '../../shared/work/view.ts';
import { onLink } from '../common/router.ts';
import { useEffect } from '../common/use-effect.ts';
import { useSay } from '../common/words.ts';
import { bringIntoView } from '../talk/bring-into-view.ts';
import { Choices } from '../talk/choices.tsx';

interface Props {
  readonly conditions: WorkView['conditions'];
  readonly dangers: readonly Option[];
  readonly lastTick: WorkView['lastTick'];
  readonly onTakeBack: (step: string) => void;
  readonly onLost: (condition: string) => void;
  readonly onDanger: (sign: string) => void;
  readonly base: string;
}

/** What can go wrong on the way: a wrong tick, something that no longer holds, danger, or leaving for later. */
export function Troubles(props: Props) {
  const say = useSay();
  const { lastTick } = props;
  const [asked, setAsked] = useState<'lost' | 'danger' | null>(null);
  // what is to be chosen opens below, at the foot of the screen
  useEffect(() => {
    if (asked !== null) bringIntoView('.troubles .choices');
  }, [asked]);
  return (
    <section class="troubles" aria-label={say('troubles')}>
      <div class="trouble-row">
        <button
          type="button"
          class="choice plain"
          onClick={() => setAsked(asked === 'danger' ? null : 'danger')}
          aria-expanded={asked === 'danger'}
        >
          {say('danger-here')}
        </button>
        {props.conditions.length > 0 ? (
          <button
            type="button"
            class="choice plain"
            onClick={() => setAsked(asked === 'lost' ? null : 'lost')}
            aria-expanded={asked === 'lost'}
          >
            {say('lost-something')}
          </button>
        ) : null}
        {lastTick !== null ? (
          <button type="button" class="choice plain" onClick={() => props.onTakeBack(lastTick)}>
            {say('take-back')}
          </button>
        ) : null}
        <a class="choice plain" href={props.base} onClick={onLink}>
          {say('leave-work')}
        </a>
      </div>
      {asked === 'lost' ? (
        <>
          <p>{say('lost-which-one')}</p>
          <Choices
            options={props.conditions.map(({ id, name }) => ({ id, label: name }))}
            chosen={[]}
            many={false}
            onChoose={(id) => {
              setAsked(null);
              props.onLost(id);
            }}
          />
        </>
      ) : null}
      {asked === 'danger' ? (
        <>
          <p>{say('danger-which-one')}</p>
          <Choices options={props.dangers} chosen={[]} many={false} onChoose={props.onDanger} />
        </>
      ) : null}
    </section>
  );
}
