import { useRef, useState } from 'hono/jsx/dom';
import { goTo, onLink } from '../common/router.ts';
import { useEffect } from '../common/use-effect.ts';
import { useSay } from '../common/words.ts';
import { Waiting } from '../screens/no-case.tsx';
import { isOffline } from '../store/http.ts';
import { listPeople, me, type Person, roles } from './api.ts';
import { NewPerson } from './new-person.tsx';
import { PersonRow } from './person-row.tsx';

interface Known {
  readonly self: Person;
  readonly people: readonly Person[];
}

/** Who may sign in at the desk, and as what: owners let people in, change them, and let them in no more. */
export function PeopleScreen() {
  const say = useSay();
  const [known, setKnown] = useState<Known | 'offline' | null>(null);
  const [done, setDone] = useState({ message: '' });
  const line = useRef<HTMLParagraphElement>(null);
  const read = (): Promise<void> =>
    Promise.all([me(), listPeople()]).then(
      ([self, { people }]) => setKnown({ self, people }),
      // who is signed in no longer, after a new password of their own too, signs in there
      (error: unknown) => (isOffline(error) ? setKnown('offline') : goTo('/desk')),
    );
  useEffect(() => void read(), []);
  // what was pressed may be gone or far below
  useEffect(() => line.current?.focus(), [done]);
  // told once the list shows it
  const changed = (message: string): void => void read().then(() => setDone({ message }));
  if (known === null) return <Waiting />;
  return (
    <main class="page people">
      <a class="quiet" href="/desk" onClick={onLink}>
        {say('to-desk')}
      </a>
      <h1>{say('people')}</h1>
      {known === 'offline' ? <p>{say('desk-offline')}</p> : null}
      {known !== 'offline' && known.self.role !== 'owner' ? <p>{say('people-owners')}</p> : null}
      {known !== 'offline' && known.self.role === 'owner' ? (
        <>
          <p role="status" tabindex={-1} ref={line}>
            {done.message}
          </p>
          <ul class="lines">
            {known.people.map((person) => (
              <PersonRow
                key={person.id}
                person={person}
                isSelf={person.id === known.self.id}
                onChanged={changed}
              />
            ))}
          </ul>
          <h2>{say('new-person')}</h2>
          <NewPerson key={known.people.length} onAdded={changed} />
          <h2>{say('roles')}</h2>
          <ul>
            {roles.map((role) => (
              <li key={role}>{say(`may-${role}`)}</li>
            ))}
          </ul>
        </>
      ) : null}
    </main>
  );
}
