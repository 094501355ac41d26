import { useState } from 'hono/jsx/dom';
import type { Step } from '../../shared/interview/step.ts';
import { brain } from '../brain/client.ts';
import type { Card } from '../brain/protocol.ts';
import { useSettings } from '../common/settings.ts';
import { useEffect } from '../common/use-effect.ts';
import { useSay } from '../common/words.ts';
import { caseNow } from '../store/case-now.ts';
import type { OpenCase } from '../store/use-case.ts';
import { CardForm } from '../talk/card-form.tsx';

/** The gauges once with every tap shut and once with one open, and what that tap gives; each with the phrase over it. */
const rounds: readonly { readonly step: Step; readonly over: string }[] = [
  { step: { question: 'readings', taps: 'closed' }, over: 'taps-closed' },
  { step: { question: 'readings', taps: { open: 1 } }, over: 'taps-one' },
  { step: { question: 'flow' }, over: 'round-flow-short' },
];

/** A month's readings on one screen, a minute's work; they count among the case's answers and in the dates at once. */
export function MonthlyRound({ open }: { readonly open: OpenCase }) {
  const say = useSay();
  const { settings } = useSettings();
  const { kept, looked } = open;
  const now = caseNow(kept, settings, looked.plant);
  const [cards, setCards] = useState<readonly Card[]>([]);
  const [taken, setTaken] = useState<readonly string[]>([]);
  useEffect(
    () =>
      void brain
        .cards(
          now,
          rounds.map(({ step }) => step),
        )
        .then(setCards),
    [looked.plant],
  );
  if (kept.closed || !looked.plant.line.some(({ kind }) => kind === 'gauge')) return null;
  return (
    <section class="monthly-round">
      <h2>{say('monthly-round')}</h2>
      {cards.map((card, i) => (
        <details key={card.key} class="entry-card">
          <summary>
            <span class="label">{say(rounds[i]?.over ?? '')}</span>
            <span class="given">{taken.includes(card.key) ? say('round-taken') : ''}</span>
          </summary>
          <p class="small">{card.text}</p>
          <CardForm
            key={`${card.key} ${taken.length}`}
            // Last month's figures are no help with this month's.
            card={{ ...card, given: null }}
            numbered={false}
            onFilled={(filled) =>
              void brain.fill(now, card.step, filled).then((value) => {
                if (!('ok' in value)) return;
                open.answer(card.step, value.ok);
                setTaken([...taken, card.key]);
              })
            }
          />
        </details>
      ))}
    </section>
  );
}
