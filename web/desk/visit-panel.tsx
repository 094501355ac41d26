import type { ShownCause } from '../brain/protocol.ts';
import { chanceCount } from '../common/chance.ts';
import { useEffect } from '../common/use-effect.ts';
import { useSay } from '../common/words.ts';
import { isCured, stillToDo } from '../ranking/cured.ts';
import { isTooEarly } from '../ranking/too-early.ts';
import { type KeptCase, withoutCall } from '../store/kept.ts';
import type { OpenCase } from '../store/use-case.ts';
import { Decision, VanList } from '../talk/decision.tsx';
import { type Beside, spokenRef } from './api.ts';
import { Closings } from './closings.tsx';
import { Notes } from './notes.tsx';
import { useBeside } from './use-beside.ts';

interface Props {
  readonly open: OpenCase;
  readonly at: string;
}

/** What somebody who is sent meets first: how to get in, what was told, what to load. Without a network notes are missing. */
export function VisitPanel({ open, at }: Props) {
  const say = useSay();
  const { beside, read } = useBeside(at);
  const { looked, kept } = open;
  const call = beside?.call ?? kept.call;
  useEffect(() => {
    if (beside) open.change((now) => withCall(now, beside));
  }, [beside]);
  const suspected = suspectedOf(open);
  const dangers = looked.earlier.find(({ step }) => step.question === 'danger');
  return (
    <section class="visit" aria-label={say('visit')}>
      <h2>{say('visit')}</h2>
      {beside ? <p>{say('reference', { ref: spokenRef(beside.desk.ref) })}</p> : null}
      <dl>
        {call ? (
          <>
            <dt>{say('access')}</dt>
            <dd>{call.access ?? say('not-known-field')}</dd>
            <dt>{say('call-back')}</dt>
            <dd>{call.callBack ?? say('not-known-field')}</dd>
          </>
        ) : null}
        <dt>{say('dangers-told')}</dt>
        <dd>{dangers?.text ?? say('dangers-not-asked')}</dd>
        <dt>{say('suspected')}</dt>
        <dd>
          {suspected.length === 0
            ? say('not-known-field')
            : suspected
                .map(({ name, probability }) =>
                  say('suspected-cause', { cause: name, chance: chanceCount(probability, say) }),
                )
                .join('; ')}
        </dd>
      </dl>
      <Decision looked={looked} />
      {/* who goes although the telephone might do takes what the plan's jobs need */}
      {looked.result.dispatch.decision === 'phone' ? <VanList items={neededOf(open)} /> : null}
      {beside ? (
        <>
          <Notes base={at} notes={beside.notes} onWritten={read} />
          <details>
            <summary>{say('close-case')}</summary>
            <Closings base={at} stopped={looked.result.stopped !== null} isSeen />
          </details>
        </>
      ) : (
        <p class="small">{say('call-offline')}</p>
      )}
    </section>
  );
}

/** The case as kept here with the way in, or without it once there is nothing to get in for; null where it stands so. */
function withCall(kept: KeptCase, { desk, call: { access, callBack } }: Beside): KeptCase | null {
  if (desk.state === 'closed' && desk.closedHow !== 'sent') return withoutCall(kept);
  return kept.call?.access === access && kept.call.callBack === callBack
    ? null
    : { ...kept, call: { access, callBack } };
}

/** A cause at least this likely is worth a word to who goes; more than three would be no suspicion. */
const WORTH_A_WORD = 0.1;
const MOST = 3;

function suspectedOf({ looked, kept }: OpenCase): readonly ShownCause[] {
  if (isTooEarly(looked) || isCured(kept)) return [];
  return looked.causes
    .filter(({ overdue, probability }) => !overdue && probability >= WORTH_A_WORD)
    .slice(0, MOST);
}

/** What the jobs still to do take, each thing once. */
function neededOf({ looked, kept }: OpenCase): readonly string[] {
  if (isTooEarly(looked)) return [];
  return [...new Set(stillToDo(looked.plan, kept).flatMap(({ van }) => van))];
}
