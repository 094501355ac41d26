import { useState } from 'hono/jsx/dom';
import { AskTwice } from '../common/ask-twice.tsx';
import { goTo } from '../common/router.ts';
import { useSay } from '../common/words.ts';
import { closeCase, closings, eraseCase } from './api.ts';
import { signedInRole } from './signed-in.ts';

interface Props {
  readonly base: string;
  /** on a danger sign: closing it is asked twice */
  readonly stopped: boolean;
  /** whether somebody who could be sent has the case: nobody else of them sees it */
  readonly isSeen: boolean;
}

/** How a case came to its end; closing it leads back to the list, and so does an owner's erasing it. */
export function Closings({ base, stopped, isSeen }: Props) {
  const say = useSay();
  const [failed, setFailed] = useState(false);
  const end = (ended: Promise<void>): void =>
    void ended.then(
      () => goTo('/desk'),
      () => setFailed(true),
    );
  return (
    <div>
      <div class="closings">
        {closings.map((how) => {
          const close = (): void => end(closeCase(base, how));
          const doubt = stopped
            ? 'close-stopped'
            : how === 'sent' && !isSeen
              ? 'close-unseen'
              : null;
          return doubt ? (
            <AskTwice key={how} ask={say(`closed-${how}`)} sure={say(doubt)} onSure={close} />
          ) : (
            <button key={how} type="button" class="choice plain" onClick={close}>
              {say(`closed-${how}`)}
            </button>
          );
        })}
      </div>
      {signedInRole() === 'owner' ? (
        <AskTwice
          ask={say('erase-case')}
          sure={say('erase-sure')}
          onSure={() => end(eraseCase(base))}
        />
      ) : null}
      {failed ? (
        <p class="wrong" role="alert">
          {say('desk-not-kept')}
        </p>
      ) : null}
    </div>
  );
}
