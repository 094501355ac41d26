import { useRef, useState } from 'hono/jsx/dom';
import type { Audience } from '../../shared/case/answer.ts';
import type { ShownWork } from '../brain/protocol.ts';
import { useSettings } from '../common/settings.ts';
import { useArmed } from '../common/use-armed.ts';
import { useEffect } from '../common/use-effect.ts';
import { useSay } from '../common/words.ts';
import { bringIntoView } from '../talk/bring-into-view.ts';
import { Choices } from '../talk/choices.tsx';
import { agoText } from './ago.ts';
import { Conditions } from './conditions.tsx';

interface Props {
  readonly shown: ShownWork;
  readonly audience: Audience;
  /** when the last step was ticked */
  readonly lastAt: string | null;
  /** what happened last is still being worked out */
  readonly busy: boolean;
  readonly onStillSo: () => void;
  readonly onLost: (condition: string) => void;
}

/**
 * Before anybody goes on with a job that stood still on another device: what is said to be made there and since when. A
 * lock or a shut valve that somebody else made is looked at, and not believed; the desk has it looked at by whoever is at the plant.
 */
export function StillSo({ shown, audience, lastAt, busy, onStillSo, onLost }: Props) {
  const say = useSay();
  const { language } = useSettings().settings;
  const [asked, setAsked] = useState(false);
  const heading = useRef<HTMLHeadingElement>(null);
  const ready = useArmed('still-so') && !busy;
  useEffect(() => heading.current?.focus({ preventScroll: true }), []);
  useEffect(() => {
    if (asked) bringIntoView('.still-so .choices');
  }, [asked]);
  // who is on the telephone cannot look
  const isTold = audience === 'agent';
  const { conditions } = shown.view;
  const made = conditions.filter(({ struckBecause }) => struckBecause === null);
  const struck = conditions.filter(({ struckBecause }) => struckBecause !== null);
  const ago = (at: string): string => agoText(at, new Date(), language);
  const since = (at: string | null | undefined): string =>
    at ? say('made-ago', { ago: ago(at) }) : '';
  return (
    <section
      class={ready ? 'step still-so' : 'step still-so arming'}
      data-step="still-so"
      aria-busy={ready ? 'false' : 'true'}
    >
      <h1 ref={heading} tabindex={-1}>
        {say(made.length > 0 ? 'still-so' : 'goes-on-here')}
      </h1>
      <p>
        {say('begun-elsewhere')} {lastAt === null ? null : say('last-step', { ago: ago(lastAt) })}
      </p>
      {struck.length > 0 ? <Conditions conditions={struck} /> : null}
      {made.length > 0 ? (
        <>
          <p class="do">{say(isTold ? 'still-so-ask' : 'still-so-look')}</p>
          <ul class="said-made">
            {made.map(({ id, name }) => (
              <li key={id}>
                <strong>{name}</strong> {since(shown.madeAt[id])}
              </li>
            ))}
          </ul>
        </>
      ) : (
        <p class="do">{say('nothing-said-made')}</p>
      )}
      <div class="ticks">
        <button type="button" class="tick-button" onClick={() => ready && onStillSo()}>
          {say(made.length === 0 ? 'go-on-here' : isTold ? 'still-so-told' : 'still-so-yes')}
        </button>
        {made.length > 0 ? (
          <button
            type="button"
            class="choice"
            aria-expanded={asked}
            onClick={() => ready && setAsked(!asked)}
          >
            {say('still-so-no')}
          </button>
        ) : null}
        {asked ? (
          <>
            <p>{say('lost-which-one')}</p>
            <Choices
              options={made.map(({ id, name }) => ({ id, label: name }))}
              chosen={[]}
              many={false}
              onChoose={onLost}
            />
          </>
        ) : null}
      </div>
    </section>
  );
}
