import { useState } from 'hono/jsx/dom';
import { AskTwice } from '../common/ask-twice.tsx';
import { goTo } from '../common/router.ts';
import { useSay } from '../common/words.ts';
import { closeCase, closings } from './api.ts';

interface Props {
  readonly base: string;
  /** on a danger sign: closing it is asked twice */
  readonly stopped: boolean;
}

/** How a case came to its end; closing it leads back to the list. */
export function Closings({ base, stopped }: Props) {
  const say = useSay();
  const [failed, setFailed] = useState(false);
  return (
    <div>
      <div class="closings">
        {closings.map((how) => {
          const close = (): void =>
            void closeCase(base, how).then(
              () => goTo('/desk'),
              () => setFailed(true),
            );
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
      {failed ? (
        <p class="wrong" role="alert">
          {say('desk-not-kept')}
        </p>
      ) : null}
    </div>
  );
}
