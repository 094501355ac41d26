import { useRef, useState } from 'hono/jsx/dom';
import { useEffect } from '../common/use-effect.ts';
import { useSay } from '../common/words.ts';
import { isOffline } from '../store/http.ts';
import { type Person, signIn } from './api.ts';

export function SignIn({ onPerson }: { readonly onPerson: (person: Person) => void }) {
  const say = useSay();
  const [wrong, setWrong] = useState<string | null>(null);
  const first = useRef<HTMLInputElement>(null);
  useEffect(() => first.current?.focus(), []);
  const enter = (event: Event): void => {
    event.preventDefault();
    const form = new FormData(event.currentTarget as HTMLFormElement);
    signIn(String(form.get('email')), String(form.get('password'))).then(
      onPerson,
      (error: unknown) => setWrong(isOffline(error) ? 'desk-offline' : 'sign-in-wrong'),
    );
  };
  return (
    <form class="sign-in" onSubmit={enter}>
      <div class="field">
        <label for="email">{say('email')}</label>
        <input id="email" name="email" type="email" autocomplete="username" required ref={first} />
      </div>
      <div class="field">
        <label for="password">{say('password')}</label>
        <input
          id="password"
          name="password"
          type="password"
          autocomplete="current-password"
          required
        />
      </div>
      {wrong ? (
        <p class="wrong" role="alert">
          {say(wrong)}
        </p>
      ) : null}
      <button type="submit" class="main">
        {say('sign-in')}
      </button>
    </form>
  );
}
