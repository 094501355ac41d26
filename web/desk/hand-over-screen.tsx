import { useState } from 'hono/jsx/dom';
import { onLink } from '../common/router.ts';
import { useSay } from '../common/words.ts';
import type { CasePageProps } from '../screens/with-case.tsx';
import { send } from '../store/http.ts';
import { StopSign } from '../talk/stop-sign.tsx';
import { isNotAllowed, Links } from './links.tsx';
import { type Code, MadeLink } from './made-link.tsx';

/**
 * Hands the case to somebody's phone: a link and the same as a QR code. What is answered there arrives here as it
 * happens. The code is drawn from its modules, so no image and no foreign code is needed.
 */
export function HandOverScreen({ open, base }: CasePageProps) {
  const say = useSay();
  const { kept, looked } = open;
  const { stopped } = looked.result;
  const [link, setLink] = useState<{ readonly address: string; readonly code: Code } | null>(null);
  const [failed, setFailed] = useState<'link-failed' | 'links-role' | null>(null);
  const [made, setMade] = useState(0);
  const make = (): void => {
    if (kept.base === null) return;
    Promise.all([
      send<{ id: string }>('POST', `${kept.base}/links`, { strength: 'continue' }),
      import('qrcode/lib/core/qrcode.js'),
    ]).then(
      ([{ id }, qr]) => {
        const address = `${location.origin}/c/${id}`;
        const { size, data } = qr.create(address, { errorCorrectionLevel: 'M' }).modules;
        setLink({ address, code: { size, data } });
        setMade((before) => before + 1);
      },
      (error: unknown) => setFailed(isNotAllowed(error) ? 'links-role' : 'link-failed'),
    );
  };
  return (
    <main class="page">
      {stopped ? <StopSign stopped={stopped} /> : null}
      <a class="quiet" href={base} onClick={onLink}>
        {say('back-to-case')}
      </a>
      <h1>{say('hand-over')}</h1>
      <p>{say('hand-over-how', { name: looked.plant.name })}</p>
      {kept.base === null ? (
        <p class="remark">{say(kept.local ? 'hand-over-local' : 'hand-over-waiting')}</p>
      ) : null}
      {link ? (
        <MadeLink address={link.address} code={link.code} />
      ) : (
        <button type="button" class="main" disabled={kept.base === null} onClick={make}>
          {say('make-link')}
        </button>
      )}
      {failed ? (
        <p class="wrong" role="alert">
          {say(failed)}
        </p>
      ) : null}
      {kept.base === null || kept.closed ? null : (
        <>
          <h2>{say('links-there')}</h2>
          <Links at={kept.base} made={made} />
        </>
      )}
      <h2>{say('arrived')}</h2>
      <p role="status">{say('answered-so-far', { n: looked.earlier.length })}</p>
      <ul>
        {looked.earlier
          .slice(-5)
          .reverse()
          .map(({ key, label, text }) => (
            <li key={key}>
              {label}: {text}
            </li>
          ))}
      </ul>
    </main>
  );
}
