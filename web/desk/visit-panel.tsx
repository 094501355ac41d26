import { chanceCount } from '../common/chance.ts';
import { useSay } from '../common/words.ts';
import { named } from '../ranking/leading.tsx';
import type { OpenCase } from '../store/use-case.ts';
import { Decision } from '../talk/decision.tsx';
import { Closings } from './closings.tsx';
import { Notes } from './notes.tsx';
import { useBeside } from './use-beside.ts';

interface Props {
  readonly open: OpenCase;
  readonly at: string;
}

/** What somebody who is sent meets first: how to get in, what was told, what to load. All but the call is known offline. */
export function VisitPanel({ open, at }: Props) {
  const say = useSay();
  const { beside, read } = useBeside(at);
  const { looked } = open;
  const likely = named(open);
  const dangers = looked.earlier.find(({ step }) => step.question === 'danger');
  return (
    <section class="visit" aria-label={say('visit')}>
      <h2>{say('visit')}</h2>
      <dl>
        {beside ? (
          <>
            <dt>{say('access')}</dt>
            <dd>{beside.call.access ?? say('not-known-field')}</dd>
            <dt>{say('call-back')}</dt>
            <dd>{beside.call.callBack ?? say('not-known-field')}</dd>
          </>
        ) : null}
        <dt>{say('dangers-told')}</dt>
        <dd>{dangers?.text ?? say('dangers-not-asked')}</dd>
        <dt>{say('suspected')}</dt>
        <dd>
          {likely
            ? say('suspected-cause', {
                cause: likely.name,
                chance: chanceCount(likely.probability, say),
              })
            : say('not-known-field')}
        </dd>
      </dl>
      <Decision looked={looked} />
      {beside ? (
        <>
          <Notes base={at} notes={beside.notes} onWritten={read} />
          <details>
            <summary>{say('close-case')}</summary>
            <Closings base={at} stopped={looked.result.stopped !== null} />
          </details>
        </>
      ) : (
        <p class="small">{say('call-offline')}</p>
      )}
    </section>
  );
}
