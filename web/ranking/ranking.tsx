import type { Plant } from '../../shared/plant/schema.ts';
import type { Looked, ShownCause } from '../brain/protocol.ts';
import { chanceCount, chanceWord } from '../common/chance.ts';
import { labelOf } from '../common/part-name.ts';
import { useSay } from '../common/words.ts';
import { Paragraphs } from '../talk/paragraphs.tsx';
import { Reasons } from './reasons.tsx';

const SHOWN = 6;
const LEAST = 0.03;

/** What it may be, most likely first, with how sure and why. */
export function Ranking({ looked }: { readonly looked: Looked }) {
  const say = useSay();
  const { result } = looked;
  // on a danger sign nothing else matters
  if (result.stopped) return null;
  const worth = looked.causes.filter((cause) => cause.probability >= LEAST);
  const shown = worth.filter((cause) => !cause.overdue).slice(0, SHOWN);
  const overdue = worth.filter((cause) => cause.overdue);
  return (
    <section class="ranking" aria-label={say('heading-causes')}>
      <h2>{say('heading-causes')}</h2>
      <ol>
        {shown.map((cause) => (
          <Cause key={cause.id} cause={cause} plant={looked.plant} />
        ))}
      </ol>
      <p class="small">{say('several-at-once')}</p>
      {overdue.length > 0 ? (
        <>
          <h3>{say('due-anyway')}</h3>
          <ol>
            {overdue.map((cause) => (
              <Cause key={cause.id} cause={cause} plant={looked.plant} />
            ))}
          </ol>
        </>
      ) : null}
      {result.remarks.map(({ id, text }) => (
        <p key={id} class="remark">
          {text}
        </p>
      ))}
      {result.warnings.length > 0 ? <h3>{say('heading-warnings')}</h3> : null}
      {result.warnings.map(({ id, text }) => (
        <p key={`${id} ${text}`} class="small">
          {text}
        </p>
      ))}
    </section>
  );
}

function Cause({ cause, plant }: { readonly cause: ShownCause; readonly plant: Plant }) {
  const say = useSay();
  const { name, says, probability, parts = [], reasons } = cause;
  const place = parts.filter((part) => part.probability >= 0.1);
  return (
    <li>
      <details>
        <summary>
          <span class="cause-name">{name}</span>
          <span class="cause-chance">
            {say('sure', {
              word: chanceWord(probability, say),
              count: chanceCount(probability, say),
            })}
          </span>
          <svg class="measure" viewBox="0 0 100 6" preserveAspectRatio="none" aria-hidden="true">
            <rect class="measure-whole" width="100" height="6" />
            <rect class="measure-part" width={(probability * 100).toFixed(1)} height="6" />
          </svg>
        </summary>
        <Paragraphs text={says} />
        {place.map((part) => (
          <p key={part.id} class="small">
            {say('place-chance', {
              part: labelOf(part.id, plant, say),
              count: chanceCount(part.probability, say),
            })}
          </p>
        ))}
        <Reasons reasons={reasons} />
      </details>
    </li>
  );
}
