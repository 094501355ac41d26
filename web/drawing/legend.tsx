import type { Format } from '../common/format.ts';
import { useSay } from '../common/words.ts';
import type { Picture } from './picture.ts';

/** What the three lines are; those not read yet say so. */
export function Legend({
  picture,
  format,
}: {
  readonly picture: Picture;
  readonly format: Format;
}) {
  const say = useSay();
  const taps = format.taps(picture.taps);
  const rows = [
    ['closed-line', picture.closed.length > 0 ? say('legend-closed') : say('legend-closed-not')],
    [
      'open-line',
      picture.open.length > 0 ? say('legend-open', { taps }) : say('legend-open-not', { taps }),
    ],
    ['clean-band', say('legend-clean', { taps })],
  ] as const;
  return (
    <ul class="legend">
      {rows.map(([line, text]) => (
        <li key={line}>
          <svg width="34" height="14" aria-hidden="true">
            {line === 'clean-band' ? (
              <rect class="clean-band" x="0" y="1" width="34" height="12" />
            ) : (
              <path class={line} d="M0,7H34" />
            )}
          </svg>
          {text}
        </li>
      ))}
    </ul>
  );
}
