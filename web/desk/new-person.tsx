import { useState } from 'hono/jsx/dom';
import { useSay } from '../common/words.ts';
import { addPerson, roles } from './api.ts';
import { refusalOf } from './refusal.ts';
import type { Role } from './signed-in.ts';

/** Lets somebody in. The server is the judge of what it takes; its refusal is said in the reader's words. */
export function NewPerson({ onAdded }: { readonly onAdded: (message: string) => void }) {
  const say = useSay();
  const [refused, setRefused] = useState<string | null>(null);
  const add = (event: Event): void => {
    event.preventDefault();
    const form = new FormData(event.currentTarget as HTMLFormElement);
    const typed = (field: string): string => String(form.get(field));
    addPerson({
      name: typed('name').trim(),
      email: typed('email').trim(),
      role: typed('role') as Role,
      password: typed('password'),
    }).then(
      ({ name }) => onAdded(say('person-let-in', { name })),
      (error: unknown) => setRefused(refusalOf(error)),
    );
  };
  return (
    <form onSubmit={add} novalidate>
      <div class="field">
        <label for="name">{say('person-name')}</label>
        <input id="name" name="name" type="text" autocomplete="off" />
      </div>
      <div class="field">
        <label for="email">{say('email')}</label>
        <input id="email" name="email" type="email" autocomplete="off" />
      </div>
      <div class="field">
        <label for="role">{say('role')}</label>
        <select id="role" name="role">
          {roles.map((role) => (
            <option key={role} value={role}>
              {say(`role-${role}`)}
            </option>
          ))}
        </select>
      </div>
      <div class="field">
        <label for="password">{say('password')}</label>
        <input
          id="password"
          name="password"
          type="password"
          autocomplete="new-password"
          aria-describedby="password-rule"
        />
        <p class="small" id="password-rule">
          {say('password-rule')}
        </p>
      </div>
      {refused ? (
        <p class="wrong" role="alert">
          {say(refused)}
        </p>
      ) : null}
      <button type="submit" class="main">
        {say('let-in')}
      </button>
    </form>
  );
}
