import { useState } from 'hono/jsx/dom';
import { localTime } from '../../shared/common/local-time.ts';
import { jobLog } from '../../shared/work/log.ts';
import type { Tick, WorkEvent } from '../../shared/work/state.ts';
import { brain } from '../brain/client.ts';
import type { ShownWork } from '../brain/protocol.ts';
import { goTo, onLink } from '../common/router.ts';
import { useSettings } from '../common/settings.ts';
import { useEffect } from '../common/use-effect.ts';
import { useSay } from '../common/words.ts';
import { isAtDesk } from '../desk/signed-in.ts';
import { lazy, Nothing } from '../lazy.tsx';
import { NoCase, Waiting } from '../screens/no-case.tsx';
import { caseNow } from '../store/case-now.ts';
import { type OpenCase, useCase, withAnswers } from '../store/use-case.ts';
import { answerIdOf, logOf, withEntry, withoutOldWork } from '../store/work-log.ts';
import { StopSign } from '../talk/stop-sign.tsx';
import { Conditions } from './conditions.tsx';
import { lastTickAt } from './last-tick-at.ts';
import { StepScreen } from './step-screen.tsx';
import { StillSo } from './still-so.tsx';
import { Troubles } from './troubles.tsx';
import { useNowAndThen } from './use-now-and-then.ts';
import { useWakeLock } from './use-wake-lock.ts';
import { WorkEnd } from './work-end.tsx';

const Notices = lazy(() => import('../desk/beside-case.ts').then((file) => file.Notices), Nothing);

interface Props {
  readonly caseKey: string;
  readonly job: string;
  /** ids joined by "+", or "-" where the job finds its own place */
  readonly parts: string;
}

export function WorkScreen({ caseKey, job, parts }: Props) {
  const open = useCase(caseKey);
  if (open === undefined) return <Waiting />;
  if (open === null) return <NoCase />;
  return (
    <Work
      open={open}
      job={job}
      parts={parts === '-' ? [] : parts.split('+')}
      base={`/case/${caseKey}`}
    />
  );
}

interface WorkProps {
  readonly open: OpenCase;
  readonly job: string;
  /** worked on one at a time, in this order */
  readonly parts: readonly string[];
  readonly base: string;
}

/** One step fills the screen; what was made safe stands along the top; nothing is shown as next that is not safe yet. */
function Work({ open, job, parts, base }: WorkProps) {
  const say = useSay();
  const { settings } = useSettings();
  const { kept, looked } = open;
  const part = parts[0] ?? null;
  const [shown, setShown] = useState<(ShownWork & { readonly state: string }) | null>(null);
  const [missing, setMissing] = useState<string | null>(null);
  useWakeLock();
  const times = useNowAndThen();
  const { counted, head, device, tooLate } = jobLog(logOf(kept), job, part);
  const events = counted.map(({ event }) => event);
  const last = counted.at(-1);
  // tells one state of the job from another, wherever its entries came from
  const state = `${last?.eventId} ${counted.length}`;
  const isElsewhere = device !== null && device !== kept.device;
  const now = caseNow(kept, settings, looked.plant);

  useEffect(() => {
    if (kept.work.length > 0) open.change(withoutOldWork);
  }, []);

  useEffect(() => {
    const cause = kept.done?.findLast((one) => one.job === job)?.cause ?? null;
    const work = { job, parts, cause, events, at: localTime(new Date()) };
    void brain.work(now, work).then((seen) => {
      if ('ok' in seen) setShown({ ...seen.ok, state });
      else setMissing(`${seen.wrong.where}: ${seen.wrong.message}`);
    });
  }, [state, kept.audience, settings, times]);

  const made = (event: WorkEvent | null) => ({ job, part, event, follows: head });
  const add = (event: WorkEvent): void =>
    open.change((before) => withEntry(before, made({ ...event, at: localTime(new Date()) })));
  const beginAgain = (): void => open.change((before) => withEntry(before, made(null)));
  const finish = (end: NonNullable<ShownWork['end']>, to: string): void => {
    const answers = end.answers.map((answer, n) => ({
      ...answer,
      answerId: answerIdOf(last?.eventId ?? '', n),
    }));
    open.change((before) => ({
      ...withEntry(withAnswers(before, answers), made(null)),
      done: [
        ...(before.done ?? []),
        {
          job,
          part,
          cause: end.cause,
          name: shown?.name ?? job,
          ended: shown?.view.ended ?? null,
          notes: end.notes,
          leftAs: end.leftAs,
          proof: end.proof,
          at: localTime(new Date()),
        },
      ],
    }));
    goTo(`${base}${to}`);
  };

  if (missing !== null) {
    return (
      <main class="page">
        <h1>{say('no-sheet')}</h1>
        <p class="wrong" role="alert">
          {missing}
        </p>
        <a class="main" href={base} onClick={onLink}>
          {say('back-to-case')}
        </a>
      </main>
    );
  }
  if (!shown) return <Waiting />;
  const { view } = shown;
  const { stopped } = looked.result;
  // told at the telephone while somebody is at it: no step stands beside it
  if (stopped && !view.ended) {
    return (
      <main class="work">
        <StopSign stopped={stopped} />
        <a class="choice" href={base} onClick={onLink}>
          {say('back-to-case')}
        </a>
      </main>
    );
  }
  const isAsked = isElsewhere && !view.ended;
  const standing = view.conditions.filter(({ struckBecause }) => struckBecause === null);
  return (
    <main class="work">
      {kept.base ? <Notices open={open} isAtJob /> : null}
      {kept.closed && !isAtDesk(kept.base) ? (
        <p class="remark" role="status">
          {say('link-withdrawn')}
        </p>
      ) : null}
      <header class="work-head">
        <p class="job-title">
          {shown.name}
          {shown.part ? <span class="part-id"> · {shown.part}</span> : null}
        </p>
        <p class="small">
          {say('work-progress', { n: Math.min(view.done + 1, view.of), of: view.of })}
        </p>
        {/* what another device says is not believed before it was looked at */}
        {isAsked ? null : <Conditions conditions={view.conditions} />}
      </header>
      {shown.advice.length > 0 ? (
        <details class="drink">
          <summary>{say('not-to-drink')}</summary>
          {shown.advice.map((text) => (
            <p key={text}>{text}</p>
          ))}
        </details>
      ) : null}
      {tooLate !== null && tooLate === kept.device ? (
        <p class="wrong" role="alert">
          {say('tick-too-late')}
        </p>
      ) : null}
      {kept.aside?.some((one) => one.job === job && one.part === part) ? (
        <p class="wrong" role="status">
          {say('step-not-taken')}
        </p>
      ) : null}
      {shown.refused ? (
        <p class="wrong" role="alert">
          {shown.refused}
        </p>
      ) : null}
      {view.ended && shown.end ? (
        <WorkEnd
          job={job}
          ended={view.ended}
          end={shown.end}
          onFinish={finish}
          onAgain={beginAgain}
        />
      ) : isAsked ? (
        <StillSo
          key={shown.state}
          shown={shown}
          audience={kept.audience}
          lastAt={lastTickAt(counted)}
          busy={shown.state !== state}
          onStillSo={() => add({ stillSo: shown.made })}
          onLost={(lost) => add({ lost })}
        />
      ) : view.step ? (
        <StepScreen
          key={`${view.step.id} ${shown.state}`}
          step={view.step}
          entry={shown.entry}
          refused={shown.refused ? tickAt(view.step.id, last?.event) : null}
          now={now}
          busy={shown.state !== state}
          onTick={(answer, input) =>
            add({
              step: view.step?.id ?? '',
              ...(answer !== null && { answer }),
              ...(input !== undefined && { input }),
            })
          }
        />
      ) : (
        <p>{say('nothing-offered')}</p>
      )}
      {view.ended ? null : (
        <Troubles
          conditions={isAsked ? [] : standing}
          dangers={shown.dangers}
          lastTick={isAsked ? null : view.lastTick}
          onTakeBack={(step) => add({ takeBack: step })}
          onLost={(lost) => add({ lost })}
          onDanger={(sign) => add({ danger: [sign] })}
          base={base}
        />
      )}
    </main>
  );
}

const tickAt = (step: string, event: WorkEvent | undefined): Tick | null =>
  event && 'step' in event && event.step === step ? event : null;
