import { useState } from 'hono/jsx/dom';
import { brain } from '../brain/client.ts';
import { goTo, onLink } from '../common/router.ts';
import { useEffect } from '../common/use-effect.ts';
import { useSay } from '../common/words.ts';
import { useFormat } from '../drawing/line-view.tsx';
import { keepFetched } from '../store/new-case.ts';
import { type Asked, type DeskCase, listCases, listPeople, type Person, states } from './api.ts';

const PAUSE_MS = 250;

/** Cases, latest change first; typed letters search, the state narrows. */
export function CaseList({ person }: { readonly person: Person }) {
  const say = useSay();
  const format = useFormat();
  const [asked, setAsked] = useState<Asked>({ search: '', state: '', assigned: '' });
  const [page, setPage] = useState<{ cases: readonly DeskCase[]; next: string | null }>({
    cases: [],
    next: null,
  });
  const [names, setNames] = useState<Readonly<Record<string, string>>>({});
  useEffect(() => void brain.causeNames().then(setNames), [say]);
  const [people, setPeople] = useState<readonly Person[]>([]);
  useEffect(() => void listPeople().then((answer) => setPeople(answer.people)), []);
  const holder = ({ assignedTo }: DeskCase): string =>
    assignedTo === null
      ? say('nobody-has-it')
      : say('has-it', { name: people.find(({ id }) => id === assignedTo)?.name ?? '–' });
  useEffect(() => {
    const timer = setTimeout(() => void listCases(asked).then(setPage), PAUSE_MS);
    return () => clearTimeout(timer);
  }, [asked]);
  const more = (next: string): void =>
    void listCases(asked, next).then((added) =>
      setPage({ cases: [...page.cases, ...added.cases], next: added.next }),
    );
  const open = (ref: string): void => {
    const audience = person.role === 'technician' ? 'technician' : 'agent';
    void keepFetched(`/api/desk/cases/${ref}`, audience).then((kept) => goTo(`/case/${kept.key}`));
  };
  const chosen = (event: Event): string => (event.target as HTMLSelectElement).value;
  return (
    <>
      {person.role === 'technician' ? null : (
        <a class="main" href="/desk/new" onClick={onLink}>
          {say('new-call')}
        </a>
      )}
      <div class="narrow">
        <div class="field">
          <label for="search">{say('search-cases')}</label>
          <input
            id="search"
            type="text"
            autocomplete="off"
            onInput={(event: Event) =>
              setAsked({ ...asked, search: (event.target as HTMLInputElement).value })
            }
          />
        </div>
        <div class="field">
          <label for="state">{say('state')}</label>
          <select
            id="state"
            onChange={(event: Event) => setAsked({ ...asked, state: chosen(event) })}
          >
            <option value="">{say('state-any')}</option>
            {states.map((state) => (
              <option value={state}>{say(`state-${state}`)}</option>
            ))}
          </select>
        </div>
        <div class="field">
          <label for="assigned">{say('assigned')}</label>
          <select
            id="assigned"
            onChange={(event: Event) => setAsked({ ...asked, assigned: chosen(event) })}
          >
            <option value="">{say('assigned-any')}</option>
            <option value="me">{say('assigned-me')}</option>
            <option value="none">{say('assigned-none')}</option>
          </select>
        </div>
      </div>
      <p role="status" class="small">
        {page.cases.length === 0 ? say('no-cases') : say('cases-shown', { n: page.cases.length })}
      </p>
      <ul class="lines">
        {page.cases.map((one) => (
          <li key={one.ref}>
            <button type="button" class="line" onClick={() => open(one.ref)}>
              <span class="given">{one.plantName ?? say('no-plant-name')}</span>
              <span class="label">
                {say('desk-line', {
                  state: say(`state-${one.state}`),
                  cause:
                    one.leadingCause === null || one.answers === 0
                      ? '–'
                      : (names[one.leadingCause] ?? one.leadingCause),
                  n: one.answers,
                  who: holder(one),
                  when: format.time(one.changedAt),
                })}
              </span>
            </button>
          </li>
        ))}
      </ul>
      {page.next === null ? null : (
        <button type="button" class="choice" onClick={() => page.next && more(page.next)}>
          {say('more-cases')}
        </button>
      )}
    </>
  );
}
