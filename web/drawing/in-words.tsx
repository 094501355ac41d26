import type { Plant } from '../../shared/plant/schema.ts';
import { chanceCount } from '../common/chance.ts';
import type { Format } from '../common/format.ts';
import { partName } from '../common/part-name.ts';
import { useSay } from '../common/words.ts';
import type { Picture } from './picture.ts';

interface Props {
  readonly picture: Picture;
  readonly plant: Plant;
  readonly format: Format;
}

/** The drawing as words: every part in order with what its gauge shows, then every stretch with what it costs. */
export function InWords({ picture, plant, format }: Props) {
  const say = useSay();
  const shown = (readings: Picture['open'], at: number): string => {
    const reading = readings.find((one) => one.at === at);
    return reading ? format.reading(reading.shownBar) : '–';
  };
  return (
    <details class="in-words">
      <summary>{say('picture-in-words')}</summary>
      <section class="scroll" tabindex={0} aria-label={say('picture-in-words')}>
        <table>
          <thead>
            <tr>
              <th scope="col">{say('column-part')}</th>
              <th scope="col">{say('column-closed')}</th>
              <th scope="col">{say('column-open')}</th>
              <th scope="col">{say('column-clean')}</th>
            </tr>
          </thead>
          <tbody>
            {picture.parts.map((part, i) => (
              <tr key={part.id}>
                <th scope="row">
                  {partName(part.id, part.words, say)}
                  {part.probability === null
                    ? ''
                    : ` ${say('likely-here', { chance: chanceCount(part.probability, say) })}`}
                </th>
                <td>{shown(picture.closed, i)}</td>
                <td>{shown(picture.open, i)}</td>
                <td>{part.kind === 'gauge' ? format.reading(picture.clean[i]?.bar ?? 0) : '–'}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      <ul>
        {picture.falls.map((fall) => (
          <li key={fall.from}>{fallText(fall)}</li>
        ))}
      </ul>
    </details>
  );

  function fallText(fall: Picture['falls'][number]): string {
    const holes = {
      from: plant.line[fall.from]?.id ?? '',
      to: plant.line[fall.to]?.id ?? '',
      drop: format.drop(fall.dropBar),
      error: format.drop(fall.uncertaintyBar),
      clean: fall.cleanBar === null ? '' : format.drop(fall.cleanBar),
    };
    if (fall.tooSmall) return say('fall-too-small', holes);
    return say(fall.cleanBar === null ? 'fall-in-words' : 'fall-in-words-clean', holes);
  }
}
