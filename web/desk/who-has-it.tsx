import { useSay } from '../common/words.ts';
import type { Person } from './api.ts';

interface Props {
  readonly people: readonly Person[];
  readonly assignedTo: string | null;
  readonly onChosen: (to: string | null) => void;
}

/** Gives a case to somebody who may sign in, or to nobody. */
export function WhoHasIt({ people, assignedTo, onChosen }: Props) {
  const say = useSay();
  return (
    <div class="field">
      <label for="who-has-it">{say('assigned')}</label>
      <select
        id="who-has-it"
        onChange={(event: Event) => onChosen((event.target as HTMLSelectElement).value || null)}
      >
        <option value="">{say('assigned-none')}</option>
        {people.map(({ id, name, role }) => (
          <option key={id} value={id} selected={id === assignedTo}>
            {say('person-role', { name, role: say(`role-${role}`) })}
          </option>
        ))}
      </select>
    </div>
  );
}
