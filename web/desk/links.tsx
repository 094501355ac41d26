import { useEffect, useState } from 'hono/jsx/dom';
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
  const [asked, setAsked] = useState<string | null>(null);
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
        setAsked(null);
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
            {own ? null : asked === ref ? (
              <div class="row">
                <button type="button" class="choice" onClick={() => withdraw(ref)}>
                  {say('withdraw-now')}
                </button>
                <button type="button" class="choice plain" onClick={() => setAsked(null)}>
                  {say('leave-as-it-was')}
                </button>
              </div>
            ) : (
              <button type="button" class="choice plain" onClick={() => setAsked(ref)}>
                {say('withdraw-link')}
              </button>
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
