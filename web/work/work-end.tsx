import { timesText } from '../../shared/ruleset/figures.ts';
import type { ShownWork } from '../brain/protocol.ts';
import { chanceCount } from '../common/chance.ts';
import { useSettings } from '../common/settings.ts';
import { useArmed } from '../common/use-armed.ts';
import { type Say, useSay } from '../common/words.ts';
import { Paragraphs } from '../talk/paragraphs.tsx';

type End = NonNullable<ShownWork['end']>;

interface Props {
  readonly job: string;
  readonly ended: NonNullable<ShownWork['view']['ended']>;
  readonly end: End;
  /** `to`: where to go on, below the case's own address */
  readonly onFinish: (end: End, to: string) => void;
  readonly onAgain: () => void;
}

/** How the job ended: whether the fault is gone, what is left, what the new clean baseline is, and what comes next. */
export function WorkEnd({ job, ended, end, onFinish, onAgain }: Props) {
  const say = useSay();
  const { proof, left, calls } = end;
  const ready = useArmed('end');
  const next = nextOf(job, end, say);
  const { language } = useSettings().settings;
  const times = (value: number): string => timesText(value, language);
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
      {end.leftAs.length > 0 ? <p>{say('left-as', { list: end.leftAs.join(' · ') })}</p> : null}
      {end.untouched.map((name) => (
        <p key={name}>{say('untouched', { name })}</p>
      ))}
      {proof?.outcome === 'cured' ? <p>{say('baseline')}</p> : null}
      {next ? (
        <>
          {next.why ? <p>{next.why}</p> : null}
          <button
            type="button"
            class={next.isFirst ? 'tick-button next-work' : 'choice next-work'}
            onClick={() => ready && onFinish(end, next.to)}
          >
            {next.text}
          </button>
        </>
      ) : null}
      <button
        type="button"
        class={next?.isFirst ? 'choice' : 'tick-button'}
        onClick={() => ready && onFinish(end, '')}
      >
        {say('keep-work')}
      </button>
      {ended === 'done' || mustNotAgain(end) ? null : (
        <button type="button" class="choice plain" onClick={() => ready && onAgain()}>
          {say('begin-again')}
        </button>
      )}
    </section>
  );
}

const mustNotAgain = ({ answers }: End): boolean =>
  answers.some(({ value }) => (value as { readonly again?: boolean } | null)?.again === false);

interface Next {
  readonly to: string;
  readonly text: string;
  readonly why: string | null;
  /** stands before all else; otherwise it may wait */
  readonly isFirst: boolean;
}

/** The same job on the next part, or the job this one was handed over to. */
function nextOf(job: string, end: End, say: Say): Next | null {
  const { nextParts, leadsTo, proof } = end;
  const [part] = nextParts;
  if (part !== undefined) {
    const isFirst = proof?.outcome !== 'cured';
    return {
      to: `/work/${job}/${nextParts.join('+')}`,
      text: say('go-on-part', { part }),
      why: say(isFirst ? 'more-parts' : 'more-parts-good', { parts: nextParts.join(', ') }),
      isFirst,
    };
  }
  if (!leadsTo) return null;
  const who = say(`by-${leadsTo.by}`);
  return {
    to: `/work/${leadsTo.job}/${leadsTo.part ?? '-'}`,
    text: say('go-on-job', { name: leadsTo.name, who }),
    why: null,
    isFirst: true,
  };
}
