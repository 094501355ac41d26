import { useState } from 'hono/jsx/dom';
import { brain } from '../brain/client.ts';
import { goTo, onLink } from '../common/router.ts';
import { useSettings } from '../common/settings.ts';
import { loneKey } from '../common/typed-key.ts';
import { useEffect } from '../common/use-effect.ts';
import { useFormat } from '../common/use-format.ts';
import { useSay } from '../common/words.ts';
import { keepDeskCase } from '../store/new-case.ts';
import { agoText } from '../work/ago.ts';
import { type Asked, type DeskCase, listCases, listPeople, type Person, spokenRef } from './api.ts';
import { ALL, askedBefore, keepAsked } from './asked.ts';
import { Narrow } from './narrow.tsx';

const PAUSE_MS = 250;

interface Page {
  readonly cases: readonly DeskCase[];
  readonly next: string | null;
}

/** Cases, latest change first; typed letters search, the state narrows. */
export function CaseList({ person }: { readonly person: Person }) {
  const say = useSay();
  const format = useFormat();
  const { settings } = useSettings();
  const [asked, setAsked] = useState<Asked>(askedBefore);
  useEffect(() => keepAsked(asked), [asked]);
  useListKeys(person);
  const [page, setPage] = useState<Page | null>(null);
  const [failed, setFailed] = useState(false);
  const [names, setNames] = useState<Readonly<Record<string, string>>>({});
  useEffect(() => void brain.causeNames().then(setNames), [say]);
  const [people, setPeople] = useState<readonly Person[]>([]);
  useEffect(() => void listPeople().then((answer) => setPeople(answer.people)), []);
  const holder = ({ assignedTo }: DeskCase): string =>
    assignedTo === null
      ? say('nobody-has-it')
      : say('has-it', { name: people.find(({ id }) => id === assignedTo)?.name ?? '–' });
  useEffect(() => {
    // an answer to what is no longer asked comes too late
    let isAsked = true;
    const shown = (next: Page): void => {
      if (!isAsked) return;
      setPage(next);
      setFailed(false);
    };
    const timer = setTimeout(
      () => void listCases(asked).then(shown, () => isAsked && setFailed(true)),
      PAUSE_MS,
    );
    return () => {
      isAsked = false;
      clearTimeout(timer);
    };
  }, [asked]);
  const more = ({ cases, next }: Page): void => {
    if (next === null) return;
    const added = (further: Page): void =>
      // unless another list was asked for meanwhile
      setPage((now) =>
        now?.next === next ? { cases: [...cases, ...further.cases], next: further.next } : now,
      );
    void listCases(asked, next).then(added, () => setFailed(true));
  };
  const open = (ref: string): void => {
    void keepDeskCase(ref, person.role).then((kept) => goTo(`/case/${kept.key}`));
  };
  return (
    <>
      {person.role === 'technician' ? null : (
        <a class="main" href="/desk/new" onClick={onLink}>
          <span class="number">n</span> {say('new-call')}
        </a>
      )}
      <Narrow person={person} people={people} asked={asked} onAsked={setAsked} />
      {failed ? (
        <p class="wrong" role="alert">
          {say('desk-offline')}
        </p>
      ) : null}
      <p role="status" class="small">
        {page === null
          ? say('one-moment')
          : page.cases.length === 0
            ? say('no-cases')
            : say(page.next === null ? 'cases-shown' : 'cases-shown-more', {
                n: page.cases.length,
              })}
      </p>
      {Object.values(asked).every((one) => one === '') ? null : (
        <button type="button" class="choice plain" onClick={() => setAsked(ALL)}>
          {say('all-cases')}
        </button>
      )}
      <ul class="lines">
        {(page?.cases ?? []).map((one) => (
          <li key={one.ref}>
            <button type="button" class="line case-line" onClick={() => open(one.ref)}>
              <span class="given">{one.plantName ?? say('no-plant-name')}</span>
              <span class="label">
                {say('desk-line', {
                  ref: spokenRef(one.ref),
                  state: [
                    `state-${one.state}`,
                    ...(one.closedHow ? [`closed-${one.closedHow}`] : []),
                  ]
                    .map((key) => say(key))
                    .join('; '),
                  priority: say('priority-row', { priority: say(`priority-${one.priority}`) }),
                  cause:
                    one.leadingCause === null || one.answers === 0
                      ? '–'
                      : (names[one.leadingCause] ?? one.leadingCause),
                  who: holder(one),
                  when: format.time(one.changedAt),
                })}
                {one.atWork && one.state !== 'closed'
                  ? `; ${say('row-at-work', { ago: agoText(one.atWork.at, new Date(), settings.language) })}`
                  : null}
              </span>
            </button>
          </li>
        ))}
      </ul>
      {page === null || page.next === null ? null : (
        <button type="button" class="choice" onClick={() => more(page)}>
          {say('more-cases')}
        </button>
      )}
    </>
  );
}

/** `/` to search, `n` for a new call. */
function useListKeys({ role }: Person): void {
  useEffect(() => {
    const press = (event: KeyboardEvent): void => {
      const key = loneKey(event);
      if (key === '/') {
        event.preventDefault();
        document.getElementById('search')?.focus();
      }
      if (key === 'n' && role !== 'technician') goTo('/desk/new');
    };
    addEventListener('keydown', press);
    return () => removeEventListener('keydown', press);
  }, [role]);
}
