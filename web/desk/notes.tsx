import { useState } from 'hono/jsx/dom';
import { useFormat } from '../common/use-format.ts';
import { useSay } from '../common/words.ts';
import { type Note, writeNote } from './api.ts';
import { draftOf, keepDraft } from './draft.ts';

interface Props {
  readonly base: string;
  readonly notes: readonly Note[];
  readonly onWritten: () => void;
}

/**
 * What was written down beside a case, and a line to write more. What could not be kept stays in its line. One element holds
 * it all: with several, each letter typed would put them there anew and take the focus away.
 */
export function Notes({ base, notes, onWritten }: Props) {
  const say = useSay();
  const format = useFormat();
  const [note, setNote] = useState(() => draftOf(base));
  const [failed, setFailed] = useState(false);
  const type = (text: string): void => {
    setNote(text);
    keepDraft(base, text);
  };
  const write = (event: Event): void => {
    event.preventDefault();
    if (note.trim() === '') return;
    writeNote(base, note).then(
      () => {
        setFailed(false);
        type('');
        onWritten();
      },
      () => setFailed(true),
    );
  };
  return (
    <section aria-label={say('notes')}>
      <h3>{say('notes')}</h3>
      <ul class="notes">
        {notes.map(({ id, by, at, text }) => (
          <li key={id}>
            {text}{' '}
            <span class="small">{say('note-by', { by: by ?? '–', when: format.time(at) })}</span>
          </li>
        ))}
      </ul>
      <form class="entry" onSubmit={write}>
        <input
          class="new-note"
          type="text"
          aria-label={say('new-note')}
          autocomplete="off"
          value={note}
          onInput={(event: Event) => type((event.target as HTMLInputElement).value)}
        />
        <button type="submit">{say('write-note')}</button>
      </form>
      {failed ? (
        <p class="wrong" role="alert">
          {say('desk-not-kept')}
        </p>
      ) : null}
    </section>
  );
}
