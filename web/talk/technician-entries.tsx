import { useState } from 'hono/jsx/dom';
import type { Step } from '../../shared/interview/step.ts';
import { brain } from '../brain/client.ts';
import type { Card } from '../brain/protocol.ts';
import { useSettings } from '../common/settings.ts';
import { useEffect } from '../common/use-effect.ts';
import { useSay } from '../common/words.ts';
import { caseNow } from '../store/case-now.ts';
import type { OpenCase } from '../store/use-case.ts';
import { CardForm } from './card-form.tsx';
import { Cautions } from './cautions.tsx';
import { EarlierAnswers } from './earlier-answers.tsx';
import { Finding } from './finding.tsx';
import { AfterWork } from './lazy-after-work.ts';

interface Props {
  readonly open: OpenCase;
  readonly base: string;
}

/** Several entries on one screen, in any order; the one worth most next stands open. */
export function TechnicianEntries({ open, base }: Props) {
  const say = useSay();
  const { settings } = useSettings();
  const { kept, looked } = open;
  const now = caseNow(kept, settings, looked.plant);
  const [cards, setCards] = useState<readonly Card[]>([]);
  const [wrong, setWrong] = useState<{ readonly key: string; readonly message: string } | null>(
    null,
  );
  const next = looked.card?.key;
  useEffect(() => {
    void brain
      .cards(
        now,
        looked.others.map(({ step }) => step),
      )
      .then(setCards);
  }, [looked]);
  const given = new Map(looked.earlier.map(({ key, text }) => [key, text]));
  const keep = (card: Card) => (filled: Parameters<typeof brain.fill>[2]) =>
    void brain.fill(now, card.step, filled).then((value) => {
      if (!('ok' in value)) {
        setWrong({ key: card.key, message: value.wrong.message });
        return;
      }
      setWrong(null);
      // what was kept stands in its line; the form would be empty for the next reading
      document.getElementById(entryId(card.step))?.removeAttribute('open');
      open.answer(card.step, value.ok);
    });
  return (
    <section class="entries">
      <h2>{say('entries')}</h2>
      <Cautions cautions={looked.result.cautions} />
      {kept.done ? <AfterWork kept={kept} looked={looked} /> : null}
      <EarlierAnswers earlier={looked.earlier} readOnly={kept.closed} onChange={openEntry} />
      {looked.card ? null : <Finding open={open} base={base} readOnly onMeasure={() => {}} />}
      {kept.closed
        ? null
        : cards.map((card) => (
            <details
              key={card.key}
              class="entry-card"
              id={entryId(card.step)}
              open={card.key === next}
            >
              <summary>
                <span class="label">{labelOf(card)}</span>
                <span class="given">{given.get(card.key) ?? ''}</span>
              </summary>
              <p class="small">{card.text}</p>
              {wrong?.key === card.key ? (
                <p class="wrong" role="alert">
                  {wrong.message}
                </p>
              ) : null}
              <CardForm
                key={`${card.key} ${given.get(card.key) ?? ''}`}
                card={card}
                numbered={false}
                onFilled={keep(card)}
              />
              {card.key === next ? (
                <button
                  type="button"
                  class="choice plain"
                  onClick={() => open.answer(card.step, card.unknown)}
                >
                  {say('unknown')}
                </button>
              ) : null}
            </details>
          ))}
      {/* last, where the thumb finds it however far down an entry was kept */}
      {looked.card ? (
        <button
          type="button"
          class="choice next-worth"
          onClick={() => looked.card && openEntry(looked.card.step)}
        >
          {say('next-worth', { what: looked.card.short })}
        </button>
      ) : null}
    </section>
  );

  function labelOf(card: Card): string {
    return looked.others.find(({ key }) => key === card.key)?.label ?? card.short;
  }
}

const entryId = (step: Step): string =>
  `entry-${JSON.stringify(step).replaceAll(/[^a-z0-9]+/gi, '-')}`;

function openEntry(step: Step): void {
  const entry = document.getElementById(entryId(step));
  if (!(entry instanceof HTMLDetailsElement)) return;
  entry.open = true;
  entry.scrollIntoView({ block: 'start' });
  entry.querySelector<HTMLElement>('summary')?.focus();
}
