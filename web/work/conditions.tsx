import type { WorkView } from '../../shared/work/view.ts';
import { useSay } from '../common/words.ts';

/** What is made safe, in words along the top; what was lost is struck through with its reason. */
export function Conditions({ conditions }: Pick<WorkView, 'conditions'>) {
  const say = useSay();
  return (
    <div class="conditions" role="status">
      {conditions.length === 0 ? <span class="none-made">{say('nothing-made')}</span> : null}
      <ul>
        {conditions.map(({ id, name, struckBecause }) => (
          <li key={`${id} ${struckBecause}`}>
            {struckBecause === null ? name : <s>{name}</s>}
            {struckBecause === null ? null : (
              <span class="because"> {say('struck-because', { why: struckBecause })}</span>
            )}
          </li>
        ))}
      </ul>
    </div>
  );
}
