import { useRef, useState } from 'hono/jsx/dom';
import type { Tick } from '../../shared/work/state.ts';
import type { StepView } from '../../shared/work/view.ts';
import { brain } from '../brain/client.ts';
import type { Card, CaseNow } from '../brain/protocol.ts';
import { useArmed } from '../common/use-armed.ts';
import { useEffect } from '../common/use-effect.ts';
import { useFormat } from '../common/use-format.ts';
import { useSay } from '../common/words.ts';
import { bringIntoView } from '../talk/bring-into-view.ts';
import { CardForm, type FilledForm } from '../talk/card-form.tsx';
import { Choices } from '../talk/choices.tsx';
import { Paragraphs } from '../talk/paragraphs.tsx';
import { StepDrawing } from './step-drawing.tsx';

/** A server takes what happened at one step up to some length; a note stays well under it. */
const MOST_SIGNS = 2000;

interface Props {
  readonly step: StepView;
  readonly entry: Card | null;
  /** the tick just made here that was not taken: its caution was taken up, and what was typed stays to be mended */
  readonly refused: Tick | null;
  readonly now: CaseNow;
  /** what was ticked last is still being worked out */
  readonly busy: boolean;
  readonly onTick: (answer: string | null, input: unknown) => void;
}

/**
 * The caution first, and the step only after it was taken up; then what to do, with what, and the tick. Each has a
 * moment after it appears in which its buttons do nothing and are seen to.
 */
export function StepScreen({ step, entry, refused, now, busy, onTick }: Props) {
  const say = useSay();
  const format = useFormat();
  const [minded, setMinded] = useState(step.caution === null || refused !== null);
  const [input, setInput] = useState(refused?.input);
  const [unread, setUnread] = useState(false);
  const [wrong, setWrong] = useState<string | null>(null);
  const heading = useRef<HTMLHeadingElement>(null);
  const ready = useArmed(minded ? 'step' : 'caution') && !busy;
  useEffect(() => heading.current?.focus({ preventScroll: true }), [minded]);
  useEffect(() => {
    if (wrong) bringIntoView('.step .wrong');
  }, [wrong]);

  if (!minded && step.caution) {
    return (
      <section
        class={ready ? 'step caution-first' : 'step caution-first arming'}
        data-step={step.id}
        aria-busy={ready ? 'false' : 'true'}
      >
        <div class="caution">
          <h1 ref={heading} tabindex={-1} class="word">
            {say('caution')}
          </h1>
          <Paragraphs text={step.caution} />
          {step.by === 'householder' ? null : <p>{say('must-be', { by: say(`by-${step.by}`) })}</p>}
        </div>
        <button type="button" class="tick-button" onClick={() => ready && setMinded(true)}>
          {say('mind-it')}
        </button>
      </section>
    );
  }
  // what is typed goes with the answers that it belongs to; who cannot read it answers without
  const form = unread || !entry ? null : { ...entry, given: refused?.input ?? entry.given };
  const withEntry = step.answers.filter(({ takesEntry }) => takesEntry);
  const answers = form ? step.answers.filter(({ takesEntry }) => !takesEntry) : step.answers;
  const filled = (figures: FilledForm, answer: string): void => {
    if (!entry || !ready) return;
    void brain.fill(now, entry.step, figures).then((value) => {
      if ('wrong' in value) return setWrong(value.wrong.message);
      setWrong(null);
      tick(answer || null, value.ok);
    });
  };
  const tick = (answer: string | null, given: unknown = input): void => {
    if (ready) onTick(answer, given === '' ? undefined : given);
  };
  return (
    <section
      class={ready ? 'step' : 'step arming'}
      data-step={step.id}
      aria-busy={ready ? 'false' : 'true'}
    >
      <h1 ref={heading} tabindex={-1} class="visually-hidden">
        {say('this-step')}
      </h1>
      <Paragraphs text={step.text} class="do" />
      {step.inFull ? (
        <details class="more">
          <summary>{say('in-full')}</summary>
          <Paragraphs text={step.inFull} />
        </details>
      ) : null}
      {step.drawing ? <StepDrawing drawing={step.drawing} /> : null}
      {step.tools.length + step.parts.length > 0 ? (
        <p class="tools">
          {say('tools-head', { list: [...step.tools, ...step.parts].join(', ') })}
        </p>
      ) : null}
      {step.notBefore ? (
        <p class="remark">{say('not-before', { time: format.time(step.notBefore) })}</p>
      ) : null}
      {step.by === 'householder' ? null : (
        <p class="small">{say('must-be', { by: say(`by-${step.by}`) })}</p>
      )}
      {wrong ? (
        <p class="wrong" role="alert">
          {wrong}
        </p>
      ) : null}
      <div class="ticks">
        {step.input === 'words' ? (
          <div class="field">
            <label for="step-note">{say('note')}</label>
            <textarea
              id="step-note"
              rows={2}
              maxlength={MOST_SIGNS}
              value={typeof input === 'string' ? input : ''}
              onInput={(event: Event) => setInput((event.target as HTMLTextAreaElement).value)}
            />
          </div>
        ) : null}
        {form ? (
          <>
            {step.input === 'readings-open' ? <p class="small">{form.text}</p> : null}
            <CardForm
              card={form}
              numbered={false}
              {...(withEntry.length > 0 && { finishes: withEntry })}
              onFilled={filled}
            />
          </>
        ) : null}
        {answers.length > 0 ? (
          <Choices options={answers} chosen={[]} many={false} onChoose={tick} />
        ) : null}
        {form ? (
          <button
            type="button"
            class="choice plain"
            onClick={() => (withEntry.length > 0 ? setUnread(true) : tick(null, ''))}
          >
            {say('cannot-read')}
          </button>
        ) : answers.length > 0 ? null : (
          <button type="button" class="tick-button" onClick={() => tick(null)}>
            {step.tick}
          </button>
        )}
      </div>
    </section>
  );
}
