import type { Format } from '../common/format.ts';
import { useSettings } from '../common/settings.ts';
import { useSay } from '../common/words.ts';
import { bandBetween, type Geometry, lineThrough, type Point, scaleOf } from './geometry.ts';
import type { Fall, Picture, PictureReading } from './picture.ts';

interface Props {
  readonly picture: Picture;
  readonly geometry: Geometry;
  readonly format: Format;
}

/** The hydraulic grade lines: clean band, taps closed, taps open with whiskers, and the falls that count. */
export function Pressures({ picture, geometry, format }: Props) {
  const { at } = geometry;
  const from = picture.parts.findIndex((part) => part.kind === 'pump');
  const band = picture.clean.flatMap((point, i) =>
    i < Math.max(0, from) ? [] : [{ ...point, i }],
  );
  return (
    // biome-ignore lint/a11y/noAriaHiddenOnFocusable: a group of an SVG takes no focus
    <g aria-hidden="true">
      <Scale picture={picture} geometry={geometry} format={format} />
      <path
        class="clean-band"
        d={bandBetween(
          band.map(({ i, lowBar }) => at(i, lowBar)),
          band.map(({ i, highBar }) => at(i, highBar)),
        )}
      />
      {picture.closed.length > 0 ? (
        <path class="closed-line" d={lineThrough(extended(picture.closed, picture, geometry))} />
      ) : null}
      {picture.closed.map(({ at: i, bar }) => {
        const point = at(i, bar);
        return <circle class="closed-point" cx={point.x} cy={point.y} r="3.5" />;
      })}
      {picture.open.length > 0 ? (
        <path class="open-line" d={lineThrough(openPoints(picture, geometry))} />
      ) : null}
      {picture.falls.map((fall) =>
        fall.weight === 'none' ? null : (
          <FallMark fall={fall} picture={picture} geometry={geometry} format={format} />
        ),
      )}
      {picture.open.map((reading) => (
        <Whisker reading={reading} geometry={geometry} format={format} />
      ))}
    </g>
  );
}

function Scale({ picture, geometry, format }: Props) {
  const { plot, direction } = geometry;
  const say = useSay();
  const { settings } = useSettings();
  return (
    <>
      {scaleOf(picture.topBar, settings.pressure).map((bar) => {
        const point = geometry.at(0, bar);
        return direction === 'across' ? (
          <>
            <path class="scale" d={`M${plot.x},${point.y}H${plot.x + plot.width}`} />
            <text class="figure" x={plot.x - 8} y={point.y + 5} text-anchor="end">
              {format.scaleFigure(bar)}
            </text>
          </>
        ) : (
          <>
            <path class="scale" d={`M${point.x},${plot.y}V${plot.y + plot.height}`} />
            <text class="figure" x={point.x} y={plot.y - 8} text-anchor="middle">
              {format.scaleFigure(bar)}
            </text>
          </>
        );
      })}
      {direction === 'across' ? (
        <text class="figure" x={plot.x - 8} y={plot.y - 12} text-anchor="end">
          {say(format.unitKey)}
        </text>
      ) : (
        <text class="figure" x={plot.x - 18} y={plot.y - 8} text-anchor="end">
          {say(format.unitKey)}
        </text>
      )}
    </>
  );
}

/** Taps closed, nothing flows: the line goes on level to both ends. */
function extended(
  readings: readonly PictureReading[],
  picture: Picture,
  geometry: Geometry,
): Point[] {
  const pump = Math.max(
    0,
    picture.parts.findIndex((part) => part.kind === 'pump'),
  );
  const first = readings[0];
  const last = readings.at(-1);
  return [
    ...(first ? [geometry.at(Math.min(pump, first.at), first.bar)] : []),
    ...readings.map(({ at, bar }) => geometry.at(at, bar)),
    ...(last ? [geometry.at(picture.parts.length - 1, last.bar)] : []),
  ];
}

/** Between two gauges the fall is drawn where something can take it: at the parts, not along the bare pipe. */
function openPoints(picture: Picture, geometry: Geometry): Point[] {
  const { open } = picture;
  return open.flatMap((reading, i) => {
    const before = open[i - 1];
    const point = geometry.at(reading.at, reading.bar);
    if (!before) return [point];
    const [start, end] = fallSpan(picture, before.at, reading.at);
    return [geometry.at(start, before.bar), geometry.at(end, reading.bar), point];
  });
}

const costsNothing = new Set(['gauge', 'vessel', 'drain', 'relief-valve', 'dosing-pump', 'valve']);

/** From half a part before the first part that can take pressure to half a part after the last, between two gauges. */
function fallSpan(picture: Picture, from: number, to: number): [number, number] {
  const between = picture.parts
    .map((part, i) => ({ part, i }))
    .filter(({ part, i }) => i > from && i < to && !costsNothing.has(part.kind))
    .map(({ i }) => i);
  return [(between[0] ?? from + 0.5) - 0.5, (between.at(-1) ?? to - 0.5) + 0.5];
}

function Whisker({
  reading,
  geometry,
  format,
}: {
  readonly reading: PictureReading;
  readonly geometry: Geometry;
  readonly format: Format;
}) {
  const { at: i, bar, uncertaintyBar, shownBar } = reading;
  const middle = geometry.at(i, bar);
  const low = geometry.at(i, Math.max(0, bar - uncertaintyBar));
  const high = geometry.at(i, bar + uncertaintyBar);
  const across = geometry.direction === 'across';
  const cap = (point: Point): string =>
    across ? `M${point.x - 5},${point.y}h10` : `M${point.x},${point.y - 5}v10`;
  return (
    <>
      <path class="whisker" d={`${lineThrough([low, high])}${cap(low)}${cap(high)}`} />
      <circle class="open-point" cx={middle.x} cy={middle.y} r="5" />
      <text
        class="reading"
        x={across ? middle.x + 9 : middle.x}
        y={across ? middle.y - 12 : middle.y - 12}
        text-anchor={across ? 'start' : 'middle'}
      >
        {format.readingFigure(shownBar)}
      </text>
    </>
  );
}

/** A fall through the band: a heavy stroke and the words for it. */
function FallMark({ fall, picture, geometry, format }: Props & { readonly fall: Fall }) {
  const say = useSay();
  const start = picture.open.find((reading) => reading.at === fall.from);
  const end = picture.open.find((reading) => reading.at === fall.to);
  if (!start || !end) return null;
  const [first, last] = fallSpan(picture, fall.from, fall.to);
  const from = geometry.at(first, start.bar);
  const to = geometry.at(last, end.bar);
  const across = geometry.direction === 'across';
  const words = [
    say('fall-lost', { drop: format.drop(fall.dropBar) }),
    ...(fall.cleanBar === null
      ? []
      : [say('fall-clean', { drop: cleanText(fall.cleanBar, format, say) })]),
  ];
  const { lines, x, y } = across
    ? {
        lines: words,
        x: (from.x + to.x) / 2 + 16,
        // beside a long fall, above the reading at the end of a short one
        y: Math.min((from.y + to.y) / 2 - 8, to.y - READING_PX - LINE_PX * (words.length - 1)),
      }
    : besideUp(words, to, geometry);
  return (
    <>
      <path class={`fall ${fall.weight}`} d={lineThrough([from, to])} />
      <text class="fall-words">
        {lines.map((line, i) => (
          <tspan key={line} x={x} y={y + LINE_PX * i}>
            {line}
          </tspan>
        ))}
      </text>
    </>
  );
}

const LINE_PX = 18;
/** room that a reading takes above its point */
const READING_PX = 34;
const LETTER_PX = 8;

/** On the narrow drawing the words stand above the lower end, broken to the room there is. */
function besideUp(
  words: readonly string[],
  end: Point,
  { plot }: Geometry,
): { readonly lines: readonly string[]; readonly x: number; readonly y: number } {
  const right = end.x < plot.x + plot.width / 2;
  const room = right ? plot.x + plot.width - end.x - 14 : end.x - plot.x - 14;
  const letters = Math.max(8, Math.floor(room / LETTER_PX));
  const lines = words.flatMap((text) => brokenTo(text, letters));
  return {
    lines,
    x: right ? end.x + 14 : plot.x,
    y: end.y - LINE_PX * (lines.length - 1) - 4,
  };
}

/** A text in lines of at most so many letters, broken at spaces. */
function brokenTo(text: string, letters: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= letters) {
      lines[lines.length - 1] = `${last} ${word}`;
    } else lines.push(word);
  }
  return lines;
}

/** Under the smallest figure shown it says "under", not nought. */
function cleanText(bar: number, format: Format, say: ReturnType<typeof useSay>): string {
  return bar < 0.1 ? say('under-figure', { figure: format.reading(0.1) }) : format.drop(bar);
}
