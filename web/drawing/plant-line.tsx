import { chanceCount } from '../common/chance.ts';
import type { Format } from '../common/format.ts';
import { partLabel, partName } from '../common/part-name.ts';
import { useSay } from '../common/words.ts';
import { type Direction, type Geometry, geometryOf, labelUpX, lineThrough } from './geometry.ts';
import { PartShape } from './part-shape.tsx';
import type { Picture } from './picture.ts';
import { Pressures } from './pressures.tsx';

interface Props {
  readonly picture: Picture;
  readonly width: number;
  readonly direction: Direction;
  /** height of the pressures where the line runs across; left out: as on the screen */
  readonly plotHeight?: number;
  readonly format: Format;
  readonly chosen?: string | null;
  /** left out on paper: then nothing can be pressed */
  readonly onPart?: (id: string) => void;
  /** numbers beside the parts, for the sheet in the pump house */
  readonly numbers?: ReadonlyMap<string, number>;
  /** a few words above a part, for paper */
  readonly notes?: ReadonlyMap<string, string>;
}

/** The plant's own line from tank to taps and the pressure along it. */
export function PlantLine(props: Props) {
  const say = useSay();
  const { picture, width, direction, format } = props;
  const geometry = geometryOf(picture, width, direction, props.plotHeight);
  return (
    <svg
      class={`plant-line ${direction}`}
      width={geometry.width}
      height={geometry.height}
      viewBox={`0 0 ${geometry.width} ${geometry.height}`}
      role={props.onPart ? 'group' : 'img'}
      aria-label={say('picture-name')}
    >
      <defs>
        <pattern
          id="hatch"
          width="6"
          height="6"
          patternUnits="userSpaceOnUse"
          patternTransform="rotate(45)"
        >
          <path class="hatch-line" d="M0,0V6" />
        </pattern>
      </defs>
      <Pressures picture={picture} geometry={geometry} format={format} />
      <path class="pipe" d={lineThrough(geometry.pipe)} />
      {picture.parts.map((_, i) => (
        <PartOnLine key={picture.parts[i]?.id ?? i} {...props} geometry={geometry} index={i} />
      ))}
    </svg>
  );
}

/** Clear of the outline below it; names and chances take the room under the pipe. */
const NOTE_ABOVE = 24;

function PartOnLine(props: Props & { readonly geometry: Geometry; readonly index: number }) {
  const { picture, geometry, index, onPart, chosen, numbers } = props;
  const say = useSay();
  const part = picture.parts[index];
  const pipe = geometry.pipe[index];
  const middle = geometry.outlines[index];
  const touch = geometry.touch[index];
  if (!part || !pipe || !middle || !touch) return null;
  const chance = part.probability === null ? null : chanceCount(part.probability, say);
  const press = onPart && {
    role: 'button',
    tabindex: 0,
    'aria-label': chance
      ? say('part-press-likely', { name: partName(part.id, part.words, say), chance })
      : partName(part.id, part.words, say),
    'aria-pressed': chosen === part.id ? 'true' : 'false',
    onClick: () => onPart(part.id),
    onKeyDown: (event: KeyboardEvent) => {
      if (event.key !== 'Enter' && event.key !== ' ') return;
      event.preventDefault();
      onPart(part.id);
    },
  };
  const across = geometry.direction === 'across';
  const lower = across && index % 2 === 1 ? 16 : 0;
  const note = props.notes?.get(part.id);
  const number = numbers?.get(part.id);
  const label = partLabel(part.id, part.words, say);
  const name = number === undefined ? label : `${number} · ${label}`;
  return (
    <g
      class={`part ${part.kind} ${chance ? 'likely' : ''} ${chosen === part.id ? 'chosen' : ''}`}
      {...press}
    >
      <rect class="touch" {...touch} />
      {middle.x !== pipe.x || middle.y !== pipe.y ? (
        <path class="tee" d={lineThrough([pipe, middle])} />
      ) : null}
      <g transform={`translate(${middle.x},${middle.y})`}>
        {chance ? <circle class="likely-ring" r="22" /> : null}
        <PartShape part={part} />
      </g>
      {across ? (
        <text class="name" x={pipe.x} y={pipe.y + 34 + lower} text-anchor="middle">
          {name}
        </text>
      ) : (
        <text class="name" x={labelUpX} y={chance ? pipe.y - 2 : pipe.y + 5}>
          {name}
        </text>
      )}
      {note === undefined ? null : (
        <text class="note" x={middle.x} y={middle.y - NOTE_ABOVE} text-anchor="middle">
          {note}
        </text>
      )}
      {chance ? (
        <text
          class="chance"
          x={across ? pipe.x : labelUpX}
          y={across ? pipe.y + 68 + lower : pipe.y + 16}
          text-anchor={across ? 'middle' : 'start'}
        >
          {chance}
        </text>
      ) : null}
    </g>
  );
}
