import { useRef, useState } from 'hono/jsx/dom';
import { useEffect } from '../common/use-effect.ts';
import { useSay } from '../common/words.ts';

/** A QR code as its modules, row by row. */
export interface Code {
  readonly size: number;
  readonly data: ArrayLike<number | boolean>;
}

/** Names by which a computer calls itself (RFC 6761, RFC 5735); nobody else reaches it by them. */
const isThisComputer = (host: string): boolean =>
  /^(localhost|127(\.\d+){3}|\[::1\])$/.test(host) || host.endsWith('.localhost');

/** A link just made: as a QR code, as text, and to be copied where the browser lets a page do that. */
export function MadeLink({ address, code }: { readonly address: string; readonly code: Code }) {
  const say = useSay();
  const [copied, setCopied] = useState(false);
  const line = useRef<HTMLParagraphElement>(null);
  // the button that made it is gone, and who works by keyboard goes on from here
  useEffect(() => line.current?.focus(), [address]);
  return (
    <>
      <QrCode code={code} />
      <p class="address" tabindex={-1} ref={line}>
        {address}
      </p>
      {isThisComputer(location.hostname) ? <p class="remark">{say('link-this-computer')}</p> : null}
      {/* pages without TLS have no clipboard; there the text above is to be marked */}
      {navigator.clipboard ? (
        <button
          type="button"
          class="choice"
          onClick={() => void navigator.clipboard.writeText(address).then(() => setCopied(true))}
        >
          {say(copied ? 'link-copied' : 'copy-link')}
        </button>
      ) : null}
    </>
  );
}

/** A quiet zone of four modules all round (ISO/IEC 18004). */
const QUIET = 4;

function QrCode({ code: { size, data } }: { readonly code: Code }) {
  const say = useSay();
  const path = Array.from({ length: size * size }, (_, i) =>
    data[i] ? `M${(i % size) + QUIET},${Math.floor(i / size) + QUIET}h1v1h-1z` : '',
  ).join('');
  const side = size + 2 * QUIET;
  return (
    <svg
      class="qr"
      viewBox={`0 0 ${side} ${side}`}
      role="img"
      aria-label={say('qr-code')}
      shape-rendering="crispEdges"
    >
      <rect class="qr-light" width={side} height={side} />
      <path class="qr-dark" d={path} />
    </svg>
  );
}
