import { useRef, useState } from 'hono/jsx/dom';
import { brain } from '../brain/client.ts';
import type { Card, CaseNow, Wrong } from '../brain/protocol.ts';
import { useArmed } from '../common/use-armed.ts';
import { useEffect } from '../common/use-effect.ts';
import { useSay } from '../common/words.ts';
import { lazy, Nothing } from '../lazy.tsx';
import { bringIntoView } from './bring-into-view.ts';
import { CardForm, type FilledForm } from './card-form.tsx';
import { Paragraphs } from './paragraphs.tsx';

// stands under the answers: it may come after them
const OwnWords = lazy(() => import('./own-words.tsx').then((file) => file.OwnWords), Nothing);

interface Props {
  readonly card: Card;
  readonly now: CaseNow;
  readonly busy: boolean;
  /** a stop button for an answer that is being changed */
  readonly onLeave?: (() => void) | undefined;
  readonly onAnswer: (value: unknown) => void;
  readonly onDanger: (signs: readonly string[]) => void;
  readonly onJob: (job: string) => void;
}

/** One thing at a time: the question first, its reason a touch away, the answers where the thumb is. */
export function Question({ card, now, busy, onLeave, onAnswer, onDanger, onJob }: Props) {
  const say = useSay();
  const [help, setHelp] = useState<'why' | 'show' | null>(null);
  const [wrong, setWrong] = useState<Wrong | null>(null);
  const heading = useRef<HTMLHeadingElement>(null);
  const agent = now.audience === 'agent';

  // a new question is read out and starts at its top
  useEffect(() => heading.current?.focus({ preventScroll: true }), [card.key]);

  useEffect(() => {
    if (wrong) bringIntoView('.question .wrong');
  }, [wrong]);
  const [isSent, setSent] = useState(false);
  useEffect(() => {
    if (!busy) setSent(false);
  }, [busy]);
  const armed = useArmed(card.key);
  const ready = armed && !busy && !isSent;
  const answer = (value: unknown): void => {
    if (!ready) return;
    setSent(true);
    onAnswer(value);
  };
  const filled = (form: FilledForm): void => {
    if (!ready) return;
    setSent(true);
    void brain.fill(now, card.step, form).then((value) => {
      if ('ok' in value) {
        onAnswer(value.ok);
        return;
      }
      setSent(false);
      setWrong(value.wrong);
    });
  };
  const toggle = (which: 'why' | 'show'): void => setHelp(help === which ? null : which);
  return (
    <section class="question" data-question={card.key} aria-busy={ready ? 'false' : 'true'}>
      <div class="asking">
        <h2 ref={heading} tabindex={-1} class={agent ? 'visually-hidden' : undefined}>
          {agent ? card.short : card.text}
        </h2>
        {agent ? <Paragraphs text={card.text} /> : null}
        {card.job ? (
          <p class="under-sheet">
            {say('under-sheet')}{' '}
            <button type="button" class="link" onClick={() => card.job && onJob(card.job.id)}>
              {card.job.name}
            </button>
          </p>
        ) : null}
        <div class="helps">
          <button
            type="button"
            class="quiet"
            aria-expanded={help === 'why'}
            onClick={() => toggle('why')}
          >
            {say('why-do-you-ask')}
          </button>
          {card.showMe ? (
            <button
              type="button"
              class="quiet"
              aria-expanded={help === 'show'}
              onClick={() => toggle('show')}
            >
              {say('show-me')}
            </button>
          ) : null}
        </div>
        {help === 'why' ? <Paragraphs text={card.why} class="help" /> : null}
        {help === 'show' && card.showMe ? <Paragraphs text={card.showMe} class="help" /> : null}
      </div>
      <div class={armed ? 'answers' : 'answers arming'}>
        {wrong ? (
          <p class="wrong" role="alert">
            {wrong.message}
          </p>
        ) : null}
        <CardForm
          key={card.key}
          card={card}
          numbered={agent}
          onFilled={filled}
          onFilling={(form) => void brain.think(now, card.step, form)}
        />
        <div class="other-answers">
          <button type="button" class="choice plain" onClick={() => answer(card.unknown)}>
            {agent ? <span class="number">u</span> : null}
            {say('unknown')}
          </button>
          {onLeave ? (
            <button type="button" class="choice plain" onClick={onLeave}>
              {say('leave-as-it-was')}
            </button>
          ) : null}
        </div>
        <OwnWords
          card={card}
          now={now}
          numbered={agent}
          onFilled={filled}
          onUnknown={() => answer(card.unknown)}
          onDanger={onDanger}
          onHelp={setHelp}
        />
      </div>
    </section>
  );
}
