import { useRef, useState } from 'hono/jsx/dom';
import type { Told } from '../../shared/diagnosis/result.ts';
import type { Step } from '../../shared/interview/step.ts';
import { brain } from '../brain/client.ts';
import type { Card } from '../brain/protocol.ts';
import { goTo } from '../common/router.ts';
import { useSettings } from '../common/settings.ts';
import { useEffect } from '../common/use-effect.ts';
import { useSay } from '../common/words.ts';
import { lazy, Nothing } from '../lazy.tsx';
import { caseNow } from '../store/case-now.ts';
import type { OpenCase } from '../store/use-case.ts';
import { bringIntoView } from './bring-into-view.ts';
import { Cautions } from './cautions.tsx';
import { EarlierAnswers } from './earlier-answers.tsx';
import { Finding } from './finding.tsx';
import { AfterWork } from './lazy-after-work.ts';
import { Question } from './question.tsx';
import { StopSign } from './stop-sign.tsx';

interface Props {
  readonly open: OpenCase;
  readonly base: string;
}

const AgentPanel = lazy(
  () => import('../desk/beside-case.ts').then((file) => file.AgentPanel),
  Nothing,
);

const CallerWhere = lazy(
  () => import('../desk/beside-case.ts').then((file) => file.CallerWhere),
  Nothing,
);

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
  const { stopped, cautions, warnings } = looked.result;
  // what is odd about gauges is said while somebody stands at them
  const isJustRead = looked.earlier.at(-1)?.step.taps !== undefined;
  const odd = isJustRead ? warnings.filter(({ about }) => about === 'readings') : [];
  const minded = [...cautions, ...odd].map(({ text }) => text);
  // what stood beside the question before was read there
  const asked = useRef({ key: card?.key, read: [] as readonly string[], minded });
  const { current } = asked;
  asked.current =
    current.key === card?.key
      ? { ...current, minded }
      : { key: card?.key, read: current.minded, minded };
  const { read } = asked.current;
  // a new question starts at its top; what is to be minded and was not there before is read first
  const brought = useRef(card?.key);
  useEffect(() => {
    if (brought.current === card?.key) return;
    brought.current = card?.key;
    const isNew = ({ text }: Told) => !read.includes(text);
    if (cautions.some(isNew)) bringIntoView('.caution:not(.read)');
    else if (odd.some(isNew)) bringIntoView('.odd');
    else bringIntoView('.question h2, .question .aloud, .finding h2');
  }, [card?.key, minded.join()]);
  const answered = (step: Step) => (value: unknown) => open.answer(step, value);
  const { caller } = looked;
  return (
    <>
      {stopped && !changing ? <StopSign stopped={stopped} onChange={() => change(DANGER)} /> : null}
      <EarlierAnswers earlier={looked.earlier} readOnly={kept.closed} onChange={change} />
      <Cautions
        cautions={stopped ? cautions.filter(({ id }) => id !== 'stop') : cautions}
        read={card ? read : []}
      />
      {odd.map(({ text }) => (
        <p key={text} class="remark odd">
          {text}
        </p>
      ))}
      {kept.done ? <AfterWork kept={kept} looked={looked} /> : null}
      {looked.mode === 'proving' ? <p class="proving">{say('proving')}</p> : null}
      {open.wrong ? (
        <p class="wrong" role="alert">
          {say('answer-wrong', { message: open.wrong.message })}
        </p>
      ) : null}
      {kept.closed ? <p class="remark">{say('case-read-only')}</p> : null}
      {card && !kept.closed && (changing || !stopped) ? (
        <Question
          // asked once more in other words it is a new question, with nothing ticked
          key={`${card.key} ${card.text}`}
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
      {caller && !stopped && !kept.closed ? (
        <CallerWhere caller={caller} onAnswer={answered(caller.step)} />
      ) : null}
      {kept.audience === 'agent' ? (
        <AgentPanel
          looked={looked}
          base={base}
          at={kept.base}
          onPlant={answered({ question: 'plant' })}
        />
      ) : null}
    </>
  );
}
