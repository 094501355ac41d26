import { useState } from 'hono/jsx/dom';
import { useEffect } from '../common/use-effect.ts';
import { useSay } from '../common/words.ts';
import { type Asked, countCases, type Person, priorities, states } from './api.ts';

interface Props {
  readonly person: Person;
  readonly people: readonly Person[];
  readonly asked: Asked;
  readonly onAsked: (asked: Asked) => void;
}

/** What narrows the list of cases: words, state with how many stand in it, priority, who has it. */
export function Narrow({ person, people, asked, onAsked }: Props) {
  const say = useSay();
  const [counts, setCounts] = useState<Readonly<Record<string, number>>>({});
  const isTechnician = person.role === 'technician';
  useEffect(() => {
    // who sees only their own cases is told no sums of all
    if (!isTechnician) countCases().then(setCounts, () => {});
  }, []);
  const stateName = (state: string): string =>
    state in counts
      ? say('state-count', { state: say(`state-${state}`), n: counts[state] ?? 0 })
      : say(`state-${state}`);
  return (
    <div class="narrow">
      <div class="field">
        <label for="search">
          <span class="number">/</span> {say('search-cases')}
        </label>
        <input
          id="search"
          type="text"
          autocomplete="off"
          value={asked.search}
          onInput={(event: Event) =>
            onAsked({ ...asked, search: (event.target as HTMLInputElement).value })
          }
        />
      </div>
      <Choice
        id="state"
        label={say('state')}
        value={asked.state}
        options={[
          { id: '', name: say('state-any') },
          { id: 'open', name: say('state-open') },
          ...states.map((state) => ({ id: state, name: stateName(state) })),
        ]}
        onChosen={(state) => onAsked({ ...asked, state })}
      />
      <Choice
        id="priority"
        label={say('priority-choice')}
        value={asked.priority}
        options={[
          { id: '', name: say('priority-any') },
          ...priorities.map((one) => ({ id: one, name: say(`priority-${one}`) })),
        ]}
        onChosen={(priority) => onAsked({ ...asked, priority })}
      />
      <Choice
        id="assigned"
        label={say('assigned')}
        value={asked.assigned}
        options={[
          { id: '', name: say('assigned-any') },
          { id: 'me', name: say('assigned-me') },
          { id: 'none', name: say('assigned-none') },
          // who sees only their own cases has nobody to choose
          ...(isTechnician ? [] : people.filter(({ id }) => id !== person.id)),
        ]}
        onChosen={(assigned) => onAsked({ ...asked, assigned })}
      />
    </div>
  );
}

interface ChoiceProps {
  readonly id: string;
  readonly label: string;
  readonly value: string;
  readonly onChosen: (value: string) => void;
  readonly options: readonly { readonly id: string; readonly name: string }[];
}

function Choice({ id, label, value, onChosen, options }: ChoiceProps) {
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <select
        id={id}
        onChange={(event: Event) => onChosen((event.target as HTMLSelectElement).value)}
      >
        {options.map((one) => (
          <option key={one.id} value={one.id} selected={one.id === value}>
            {one.name}
          </option>
        ))}
      </select>
    </div>
  );
}
