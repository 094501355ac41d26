import { useEffect, useState } from 'hono/jsx/dom';
import { AskTwice } from '../common/ask-twice.tsx';
import { useSay } from '../common/words.ts';
import { useFormat } from '../drawing/line-view.tsx';
import { send } from '../store/http.ts';

interface Link {
  readonly ref: string;
  readonly strength: 'continue' | 'read';
  readonly createdAt: string;
  readonly own: boolean;
}

/** The links that still open a case: what each lets one do, since when, and withdrawing it, which asks once more. */
export function Links({ at, made }: { readonly at: string; readonly made: number }) {
  const say = useSay();
  const format = useFormat();
  const [links, setLinks] = useState<readonly Link[] | null>(null);
  const [failed, setFailed] = useState(false);
  const read = (): void =>
    void send<{ links: Link[] }>('GET', `${at}/links`).then(
      (answer) => setLinks(answer.links),
      () => setLinks(null),
    );
  useEffect(read, [at, made]);
  const withdraw = (ref: string): void => {
    send('POST', `${at}/links/${ref}/withdraw`).then(
      () => {
        setFailed(false);
        read();
      },
      () => setFailed(true),
    );
  };
  if (links === null) return <p class="small">{say('links-offline')}</p>;
  return (
    <>
      <ul class="links">
        {links.map(({ ref, strength, createdAt, own }) => (
          <li key={ref}>
            <p>
              {say(`link-${strength}`, { when: format.time(createdAt) })}
              {own ? ` ${say('link-own')}` : ''}
            </p>
            {own ? null : (
              <AskTwice
                ask={say('withdraw-link')}
                sure={say('withdraw-now')}
                onSure={() => withdraw(ref)}
              />
            )}
          </li>
        ))}
      </ul>
      {failed ? (
        <p class="wrong" role="alert">
          {say('withdraw-failed')}
        </p>
      ) : null}
    </>
  );
}
