import { useState } from 'hono/jsx/dom';
import { AskTwice } from '../common/ask-twice.tsx';
import { useSay } from '../common/words.ts';
import { changePerson, type Person, removePerson, roles } from './api.ts';
import { refusalOf } from './refusal.ts';
import type { Role } from './signed-in.ts';

interface Props {
  readonly person: Person;
  readonly isSelf: boolean;
  readonly onChanged: (message: string) => void;
}

/** One person who may sign in; opened, what can be changed about them. */
export function PersonRow({ person, isSelf, onChanged }: Props) {
  const say = useSay();
  const { id, name, email, role } = person;
  const [refused, setRefused] = useState<string | null>(null);
  const [refusals, setRefusals] = useState(0);
  const change = (changed: Promise<unknown>, message: string): void =>
    void changed.then(
      () => {
        setRefused(null);
        onChanged(message);
      },
      (error: unknown) => {
        setRefused(refusalOf(error));
        setRefusals(refusals + 1);
      },
    );
  const setPassword = (event: Event): void => {
    event.preventDefault();
    const form = event.currentTarget as HTMLFormElement;
    const password = String(new FormData(form).get('password'));
    change(
      changePerson(id, { password }).then(() => form.reset()),
      say('password-set', { name }),
    );
  };
  return (
    <li class="person">
      <details>
        <summary>
          <span class="name">{isSelf ? say('person-self', { name }) : name}</span>
          <span class="label">{say(`role-${role}`)}</span>
        </summary>
        <p class="small">{email}</p>
        <div class="field">
          <label for={`role-${id}`}>{say('role')}</label>
          {/* drawn anew after a refusal, so that it shows what still holds */}
          <select
            key={refusals}
            id={`role-${id}`}
            onChange={(event: Event) => {
              const chosen = (event.target as HTMLSelectElement).value as Role;
              change(
                changePerson(id, { role: chosen }),
                say('role-changed', { name, role: say(`role-${chosen}`) }),
              );
            }}
          >
            {roles.map((one) => (
              <option key={one} value={one} selected={one === role}>
                {say(`role-${one}`)}
              </option>
            ))}
          </select>
        </div>
        <form onSubmit={setPassword} novalidate>
          <label for={`password-${id}`}>{say('new-password')}</label>
          <div class="entry">
            <input
              id={`password-${id}`}
              name="password"
              type="password"
              autocomplete="new-password"
            />
            <button type="submit">{say('set-password')}</button>
          </div>
        </form>
        {refused ? (
          <p class="wrong" role="alert">
            {say(refused)}
          </p>
        ) : null}
        <AskTwice
          ask={say('let-out')}
          sure={say(isSelf ? 'let-out-self' : 'let-out-sure', { name })}
          onSure={() => change(removePerson(id), say('person-let-out', { name }))}
        />
      </details>
    </li>
  );
}
