import type { ShownWork } from '../brain/protocol.ts';
import { chanceCount } from '../common/chance.ts';
import { useArmed } from '../common/use-armed.ts';
import { useSay } from '../common/words.ts';
import { Paragraphs } from '../talk/paragraphs.tsx';

type End = NonNullable<ShownWork['end']>;

interface Props {
  readonly ended: NonNullable<ShownWork['view']['ended']>;
  readonly end: End;
  readonly onFinish: (end: End) => void;
  readonly onLeave: () => void;
}

/** How the job ended: whether the fault is gone, what is left, and what the new clean baseline is. */
export function WorkEnd({ ended, end, onFinish, onLeave }: Props) {
  const say = useSay();
  const { proof, left, calls } = end;
  const ready = useArmed('end');
  const times = (value: number): string => String(Number(value.toPrecision(2)));
  return (
    <section
      class={`step${ended === 'stopped' ? ' stop-sign' : ''}${ready ? '' : ' arming'}`}
      aria-busy={ready ? 'false' : 'true'}
    >
      <h1>{say(`ended-${ended}`)}</h1>
      {calls.map((call) => (
        <Paragraphs key={call} text={call} />
      ))}
      {proof ? <p class="do">{say(`outcome-${proof.outcome}`)}</p> : null}
      {proof?.timesClean ? (
        <p>
          {say('times-clean', {
            before: times(proof.timesClean.before),
            after: times(proof.timesClean.after),
          })}
        </p>
      ) : null}
      {left.length > 0 ? (
        <ul>
          {left.map(({ name, probability }) => (
            <li key={name}>{say('still-left', { name, count: chanceCount(probability, say) })}</li>
          ))}
        </ul>
      ) : null}
      {proof?.outcome === 'cured' ? <p>{say('baseline')}</p> : null}
      <button type="button" class="tick-button" onClick={() => ready && onFinish(end)}>
        {say('keep-work')}
      </button>
      {ended === 'done' ? null : (
        <button type="button" class="choice plain" onClick={() => ready && onLeave()}>
          {say('begin-again')}
        </button>
      )}
    </section>
  );
}
