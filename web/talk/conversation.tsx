import { useRef, useState } from 'hono/jsx/dom';
import type { Step } from '../../shared/interview/step.ts';
import { brain } from '../brain/client.ts';
import type { Card } from '../brain/protocol.ts';
import { goTo } from '../common/router.ts';
import { useSettings } from '../common/settings.ts';
import { useEffect } from '../common/use-effect.ts';
import { useSay } from '../common/words.ts';
import { caseNow } from '../store/case-now.ts';
import type { OpenCase } from '../store/use-case.ts';
import { AfterWork } from './after-work.tsx';
import { AgentPanel } from './agent-panel.tsx';
import { bringIntoView } from './bring-into-view.ts';
import { Cautions } from './cautions.tsx';
import { EarlierAnswers } from './earlier-answers.tsx';
import { Finding } from './finding.tsx';
import { Question } from './question.tsx';
import { StopSign } from './stop-sign.tsx';

interface Props {
  readonly open: OpenCase;
  readonly base: string;
}

const DANGER: Step = { question: 'danger' };

/** What was answered, what must be minded, and the one thing asked now; at the end what was found. */
export function Conversation({ open, base }: Props) {
  const say = useSay();
  const { settings } = useSettings();
  const { kept, looked, busy } = open;
  const now = caseNow(kept, settings, looked.plant);
  const [changing, setChanging] = useState<Card | null>(null);
  const change = (step: Step): void => void brain.card(now, step).then(setChanging);
  // whatever was answered, elsewhere too, ends the changing
  useEffect(() => setChanging(null), [kept.answers.length]);

  const card = changing ?? looked.card;
  const { stopped, cautions } = looked.result;
  // a new question starts at its top; a caution that was not there before is read first
  const seen = useRef({ key: card?.key, cautions });
  useEffect(() => {
    const { key, cautions: known } = seen.current;
    seen.current = { key: card?.key, cautions };
    if (key === card?.key) return;
    const isNew = cautions.some(({ id }) => !known.some((one) => one.id === id));
    bringIntoView(isNew ? '.caution' : '.question h2, .question .aloud, .finding h2');
  }, [card?.key, cautions]);
  const answered = (step: Step) => (value: unknown) => open.answer(step, value);
  return (
    <>
      {stopped && !changing ? <StopSign stopped={stopped} onChange={() => change(DANGER)} /> : null}
      <EarlierAnswers earlier={looked.earlier} readOnly={kept.closed} onChange={change} />
      <Cautions cautions={stopped ? cautions.filter(({ id }) => id !== 'stop') : cautions} />
      <AfterWork kept={kept} />
      {looked.mode === 'proving' ? <p class="proving">{say('proving')}</p> : null}
      {open.wrong ? (
        <p class="wrong" role="alert">
          {say('answer-wrong', { message: open.wrong.message })}
        </p>
      ) : null}
      {kept.closed ? <p class="remark">{say('case-read-only')}</p> : null}
      {card && !kept.closed && (changing || !stopped) ? (
        <Question
          key={card.key}
          card={card}
          now={now}
          busy={busy}
          onLeave={changing ? () => setChanging(null) : undefined}
          onAnswer={answered(card.step)}
          onDanger={answered(DANGER)}
          onJob={(job) => goTo(`${base}/work/${job}/-`)}
        />
      ) : null}
      {!card && !stopped ? (
        <Finding open={open} base={base} readOnly={kept.closed} onMeasure={change} />
      ) : null}
      {kept.audience === 'agent' ? <AgentPanel looked={looked} base={base} at={kept.base} /> : null}
    </>
  );
}
