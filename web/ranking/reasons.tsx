import type { Reason } from '../../shared/diagnosis/result.ts';
import { useSay } from '../common/words.ts';

/** Natural logs of the factor on the odds: from these on an answer speaks strongly, or somewhat. */
const STRONG = 1.5;
const SOME = 0.5;

/** Which answers spoke for a cause and which against it, strongest first. */
export function Reasons({ reasons }: { readonly reasons: readonly Reason[] }) {
  const say = useSay();
  const speaking = (sign: 1 | -1): readonly Reason[] =>
    reasons
      .filter(({ weight }) => Math.sign(weight) === sign && Math.abs(weight) >= 0.1)
      .toSorted((a, b) => Math.abs(b.weight) - Math.abs(a.weight));
  const strength = (weight: number): string => {
    const size = Math.abs(weight);
    return say(
      size >= STRONG ? 'reason-strong' : size >= SOME ? 'reason-somewhat' : 'reason-slightly',
    );
  };
  const list = (title: string, found: readonly Reason[]) =>
    found.length === 0 ? null : (
      <>
        <h3>{say(title)}</h3>
        <ul class="reasons">
          {found.map(({ text, weight, finding }) => (
            <li key={`${finding} ${text}`}>
              {text} <span class="strength">({strength(weight)})</span>
            </li>
          ))}
        </ul>
      </>
    );
  return (
    <>
      {list('speaks-for', speaking(1))}
      {list('speaks-against', speaking(-1))}
    </>
  );
}
