import { useState } from 'hono/jsx/dom';
import { AskTwice } from '../common/ask-twice.tsx';
import { useEffect } from '../common/use-effect.ts';
import { useFormat } from '../common/use-format.ts';
import { useSay } from '../common/words.ts';
import { NOT_ALLOWED, RequestError, send } from '../store/http.ts';

interface Link {
  readonly ref: string;
  readonly strength: 'continue' | 'read';
  readonly createdAt: string;
  readonly own: boolean;
}

/** A technician at the desk sees cases, not their links. */
export const isNotAllowed = (error: unknown): boolean =>
  error instanceof RequestError && error.status === NOT_ALLOWED;

/** The links that still open a case: what each lets one do, since when, and withdrawing it, which asks once more. */
export function Links({ at, made }: { readonly at: string; readonly made: number }) {
  const say = useSay();
  const format = useFormat();
  const [links, setLinks] = useState<readonly Link[] | 'not-allowed' | null>(null);
  const [failed, setFailed] = useState(false);
  const read = (): void =>
    void send<{ links: Link[] }>('GET', `${at}/links`).then(
      (answer) => setLinks(answer.links),
      (error: unknown) => setLinks(isNotAllowed(error) ? 'not-allowed' : null),
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
  if (links === 'not-allowed') return <p class="small">{say('links-role')}</p>;
  if (links === null) return <p class="small">{say('links-offline')}</p>;
  const times = links.map(({ createdAt }) => createdAt).sort();
  const tellsWhich = ({ own, createdAt }: Link): string => {
    if (own) return ` ${say('link-own')}`;
    if (made > 0 && createdAt === times.at(-1)) return ` ${say('link-just-made')}`;
    return createdAt === times[0] ? ` ${say('link-with-case')}` : '';
  };
  return (
    <>
      <ul class="links">
        {links.map((link) => (
          <li key={link.ref}>
            <p>
              {say(`link-${link.strength}`, { when: format.time(link.createdAt) })}
              {tellsWhich(link)}
            </p>
            {link.own ? null : (
              <AskTwice
                ask={say('withdraw-link')}
                sure={say('withdraw-now')}
                onSure={() => withdraw(link.ref)}
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
