import { useState } from 'hono/jsx/dom';
import { onLink } from '../common/router.ts';
import { useEffect } from '../common/use-effect.ts';
import { useSay } from '../common/words.ts';
import { Waiting } from '../screens/no-case.tsx';
import { isOffline, SIGNED_OUT } from '../store/http.ts';
import { me, type Person, signOut } from './api.ts';
import { CaseList } from './case-list.tsx';
import { SignIn } from './sign-in.tsx';
import { signedInRole } from './signed-in.ts';

const isPerson = (shown: Person | string | null): shown is Person =>
  typeof shown === 'object' && shown !== null;

/** The call desk: sign in, then many cases, searched and by state. */
export function DeskScreen() {
  const say = useSay();
  const [person, setPerson] = useState<Person | 'nobody' | 'ended' | 'offline' | null>(null);
  useEffect(() => {
    if (signedInRole() === null) {
      setPerson('nobody');
      return;
    }
    me().then(setPerson, (error: unknown) => setPerson(isOffline(error) ? 'offline' : 'nobody'));
  }, []);
  useEffect(() => {
    const end = (): void => setPerson((now) => (isPerson(now) ? 'ended' : now));
    addEventListener(SIGNED_OUT, end);
    return () => removeEventListener(SIGNED_OUT, end);
  }, []);
  const leave = (): void => {
    // the list goes at once: it would go on asking for cases and be refused
    setPerson(null);
    void signOut().then(
      () => setPerson('nobody'),
      () => setPerson('offline'),
    );
  };
  if (person === null) return <Waiting />;
  return (
    <main class="page desk">
      <div class="row spread">
        <a class="quiet" href="/" onClick={onLink}>
          {say('to-start')}
        </a>
        {isPerson(person) ? (
          <button type="button" class="quiet" onClick={leave}>
            {say('sign-out', { name: person.name })}
          </button>
        ) : null}
      </div>
      <h1>{say('to-desk')}</h1>
      {person === 'offline' ? <p>{say('desk-offline')}</p> : null}
      {person === 'ended' ? <p role="status">{say('sign-in-ended')}</p> : null}
      {person === 'nobody' || person === 'ended' ? <SignIn onPerson={setPerson} /> : null}
      {isPerson(person) ? (
        <>
          {person.role === 'owner' ? (
            <a class="quiet" href="/desk/people" onClick={onLink}>
              {say('people')}
            </a>
          ) : null}
          <CaseList person={person} />
        </>
      ) : null}
    </main>
  );
}
