import { useRef, useState } from 'hono/jsx/dom';
import { useEffect } from '../common/use-effect.ts';
import { useSay } from '../common/words.ts';
import { RequestError } from '../store/http.ts';
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
      (error: unknown) => setWrong(refusedFor(error)),
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

/** No person with these; not a person's address and password at all; too many tries, right ones refused as well. */
const UNKNOWN = 401;
const UNFIT = 422;
const TOO_MANY = 429;

/** The word that says why nobody is signed in. */
function refusedFor(error: unknown): string {
  const status = error instanceof RequestError ? error.status : 0;
  if (status === TOO_MANY) return 'sign-in-many';
  return status === UNKNOWN || status === UNFIT ? 'sign-in-wrong' : 'desk-offline';
}
