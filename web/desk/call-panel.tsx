import { useState } from 'hono/jsx/dom';
import { useEffect } from '../common/use-effect.ts';
import { useSay } from '../common/words.ts';
import { assignCase, changeCall, listPeople, type Person, spokenRef } from './api.ts';
import { Closings } from './closings.tsx';
import { Notes } from './notes.tsx';
import { useBeside } from './use-beside.ts';
import { WhoHasIt } from './who-has-it.tsx';

interface Props {
  readonly base: string;
  /** what the plant is called, which is how the desk finds it */
  readonly name: string;
  readonly onName: (name: string) => void;
  /** on a danger sign: closing it is asked twice */
  readonly stopped: boolean;
}

/** What the desk writes beside a case: who calls, a call-back, the way in, who has it, notes, how it was closed. */
export function CallPanel({ base, name, onName, stopped }: Props) {
  const say = useSay();
  const { beside, read } = useBeside(base);
  const [failed, setFailed] = useState(false);
  const [people, setPeople] = useState<readonly Person[]>([]);
  useEffect(() => {
    listPeople().then(
      (answer) => setPeople(answer.people),
      () => setPeople([]),
    );
  }, []);
  if (!beside) return <p class="small">{say('call-offline')}</p>;
  const { call, desk, notes } = beside;
  const write = (written: Promise<unknown>): void =>
    void written.then(
      () => {
        setFailed(false);
        read();
      },
      () => setFailed(true),
    );
  const technicians = people.filter(({ role }) => role === 'technician');
  // where nobody to be sent signs in, they are told in another way
  const isSeen = technicians.length === 0 || technicians.some(({ id }) => id === desk.assignedTo);
  const kept = (part: Parameters<typeof changeCall>[1]): void => write(changeCall(base, part));
  return (
    <section class="call" aria-label={say('call')}>
      <h2>{say('call')}</h2>
      <p>{say('reference', { ref: spokenRef(desk.ref) })}</p>
      <Line
        id="caller-name"
        value={name}
        label={say('caller-name')}
        onKept={(given) => onName(given ?? say('callers-plant'))}
      />
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
      <WhoHasIt
        people={people}
        assignedTo={desk.assignedTo}
        onChosen={(to) => write(assignCase(base, to))}
      />
      {failed ? (
        <p class="wrong" role="alert">
          {say('desk-not-kept')}
        </p>
      ) : null}
      <Notes base={base} notes={notes} onWritten={read} />
      <h3>{say('close-case')}</h3>
      <Closings base={base} stopped={stopped} isSeen={isSeen} />
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
  // what comes back from the server does not write over what is being typed
  const [typed, setTyped] = useState<string | null>(null);
  useEffect(() => setTyped(null), [value]);
  const leave = (): void => {
    const text = typed?.trim();
    if (text !== undefined && text !== (value ?? '')) onKept(text || null);
  };
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <input
        id={id}
        type="text"
        autocomplete="off"
        value={typed ?? value ?? ''}
        onInput={(event: Event) => setTyped((event.target as HTMLInputElement).value)}
        onBlur={leave}
      />
    </div>
  );
}
