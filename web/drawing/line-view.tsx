import { useRef, useState } from 'hono/jsx/dom';
import type { Audience } from '../../shared/case/answer.ts';
import type { Plant } from '../../shared/plant/schema.ts';
import { useEffect } from '../common/use-effect.ts';
import { useFormat } from '../common/use-format.ts';
import { useSay } from '../common/words.ts';
import { directionFor } from './geometry.ts';
import { InWords } from './in-words.tsx';
import { Legend } from './legend.tsx';
import type { Picture } from './picture.ts';
import { PlantLine } from './plant-line.tsx';

interface Props {
  readonly picture: Picture;
  /** whose line it is: an agent's and a technician's it is not */
  readonly audience: Audience;
  readonly plant: Plant;
  readonly chosen: string | null;
  readonly onPart: (id: string) => void;
}

/** The drawing at the width there is, its legend, and the same in words. */
export function LineView({ picture, audience, plant, chosen, onPart }: Props) {
  const say = useSay();
  const format = useFormat();
  const room = useRef<HTMLDivElement>(null);
  const [width, setWidth] = useState(0);
  useEffect(() => {
    const element = room.current;
    if (!element) return;
    const watch = new ResizeObserver(() => setWidth(Math.floor(element.clientWidth)));
    watch.observe(element);
    return () => watch.disconnect();
  }, []);
  return (
    <figure class="line-view">
      <h2>{say(`picture-heading-${audience}`)}</h2>
      <Legend picture={picture} format={format} />
      <div ref={room} class="room">
        {width > 0 ? (
          <PlantLine
            picture={picture}
            width={width}
            direction={directionFor(picture.parts.length, width)}
            format={format}
            chosen={chosen}
            onPart={onPart}
          />
        ) : null}
      </div>
      <InWords picture={picture} plant={plant} format={format} />
    </figure>
  );
}
