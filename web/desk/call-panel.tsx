import { useState } from 'hono/jsx/dom';
import { AskTwice } from '../common/ask-twice.tsx';
import { goTo } from '../common/router.ts';
import { useEffect } from '../common/use-effect.ts';
import { useSay } from '../common/words.ts';
import { useFormat } from '../drawing/line-view.tsx';
import { type Beside, changeCall, closeCase, closings, readBeside, writeNote } from './api.ts';

interface Props {
  readonly base: string;
  /** on a danger sign: closing it is asked twice */
  readonly stopped: boolean;
}

/** What the desk writes beside a case: where the caller is, a call-back, the way in, notes, and how it was closed. */
export function CallPanel({ base, stopped }: Props) {
  const say = useSay();
  const format = useFormat();
  const [beside, setBeside] = useState<Beside | null>(null);
  const [note, setNote] = useState('');
  const read = (): void => void readBeside(base).then(setBeside, () => setBeside(null));
  useEffect(read, [base]);
  if (!beside) return <p class="small">{say('call-offline')}</p>;
  const { call, notes } = beside;
  const write = (event: Event): void => {
    event.preventDefault();
    if (note.trim() === '') return;
    void writeNote(base, note).then(() => {
      setNote('');
      read();
    });
  };
  const kept = (part: Parameters<typeof changeCall>[1]): void =>
    void changeCall(base, part).then(read);
  return (
    <section class="call" aria-label={say('call')}>
      <h2>{say('call')}</h2>
      <div class="field">
        <label for="caller">{say('caller-where')}</label>
        <select
          id="caller"
          onChange={(event: Event) => {
            const value = (event.target as HTMLSelectElement).value;
            kept({ caller: value === '' ? null : (value as 'at-plant' | 'away') });
          }}
        >
          <option value="">{say('not-known-field')}</option>
          {(['at-plant', 'away'] as const).map((where) => (
            <option value={where} selected={call.caller === where}>
              {say(`caller-${where}`)}
            </option>
          ))}
        </select>
      </div>
      <Line
        id="call-back"
        value={call.callBack}
        label={say('call-back')}
        onKept={(callBack) => kept({ callBack })}
      />
      <Line
        id="access"
        value={call.access}
        label={say('access')}
        onKept={(access) => kept({ access })}
      />
      <h3>{say('notes')}</h3>
      <ul class="notes">
        {notes.map(({ id, by, at, text: words }) => (
          <li key={id}>
            {words}{' '}
            <span class="small">{say('note-by', { by: by ?? '–', when: format.time(at) })}</span>
          </li>
        ))}
      </ul>
      <form class="entry" onSubmit={write}>
        <input
          type="text"
          aria-label={say('new-note')}
          autocomplete="off"
          value={note}
          onInput={(event: Event) => setNote((event.target as HTMLInputElement).value)}
        />
        <button type="submit">{say('write-note')}</button>
      </form>
      <h3>{say('close-case')}</h3>
      <div class="closings">
        {closings.map((how) => {
          const close = (): void => void closeCase(base, how).then(() => goTo('/desk'));
          return stopped ? (
            <AskTwice
              key={how}
              ask={say(`closed-${how}`)}
              sure={say('close-stopped')}
              onSure={close}
            />
          ) : (
            <button key={how} type="button" class="choice plain" onClick={close}>
              {say(`closed-${how}`)}
            </button>
          );
        })}
      </div>
    </section>
  );
}

interface LineProps {
  readonly id: string;
  readonly label: string;
  readonly value: string | null;
  readonly onKept: (value: string | null) => void;
}

/** One line of text that is kept when it is left. */
function Line({ id, label, value, onKept }: LineProps) {
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <input
        id={id}
        type="text"
        autocomplete="off"
        value={value ?? ''}
        onChange={(event: Event) => onKept((event.target as HTMLInputElement).value.trim() || null)}
      />
    </div>
  );
}
