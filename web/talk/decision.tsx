import { atHome } from '../../shared/diagnosis/who.ts';
import type { Looked } from '../brain/protocol.ts';
import { chanceCount } from '../common/chance.ts';
import { useSay } from '../common/words.ts';
import { ComesFirst } from '../ranking/comes-first.tsx';
import { isTooEarly } from '../ranking/leading.tsx';
import { Paragraphs } from './paragraphs.tsx';

/** Phone, visit or stop: how soon, what to load, the chance that one visit is enough; at a danger sign, whom to call. */
export function Decision({ looked }: { readonly looked: Looked }) {
  const say = useSay();
  const { stopped, dispatch } = looked.result;
  const { decision, who, oneVisit, priority } = dispatch;
  // a danger sign decides before anything else is told
  if (isTooEarly(looked) && !stopped) return <p>{say('nothing-told')}</p>;
  return (
    <>
      <p class="decision">
        {say(`dispatch-${decision}`, { who: who ? say(`who-${who}`) : '' })}{' '}
        {say('priority', { priority: say(`priority-${priority}`) })}
      </p>
      {(decision === 'phone' ? atHome(looked.plan) : []).map((job) => (
        <ComesFirst
          key={`${job.job} ${job.cause}`}
          job={job}
          part={job.parts[0]}
          plant={looked.plant}
          audience="agent"
          phrase="dispatch-first"
        />
      ))}
      {stopped ? <Paragraphs text={stopped.call} /> : null}
      <VanList items={looked.van} />
      {oneVisit === null ? null : (
        <p>{say('dispatch-one-visit', { probability: chanceCount(oneVisit, say) })}</p>
      )}
    </>
  );
}

/**
 * The decision under its heading. On the desk it stands above the drawing, where an agent finds it without scrolling; on
 * the phone after the talk.
 */
export function Decided({ looked }: { readonly looked: Looked }) {
  const say = useSay();
  return (
    <section class="decided" aria-label={say('heading-dispatch')}>
      <h2>{say('heading-dispatch')}</h2>
      <Decision looked={looked} />
    </section>
  );
}

/** What to load, where there is anything to load. */
export function VanList({ items }: { readonly items: readonly string[] }) {
  const say = useSay();
  if (items.length === 0) return null;
  return (
    <>
      <h3>{say('van-list')}</h3>
      <ul>
        {items.map((item) => (
          <li key={item}>{item}</li>
        ))}
      </ul>
    </>
  );
}
