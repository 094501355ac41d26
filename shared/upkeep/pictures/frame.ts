import { ticks } from 'd3-array';
import { line } from 'd3-shape';
import { numberText, type Units } from '../../ruleset/figures.ts';

/** A picture as vectors, with what it says in words for those who cannot see it. */
export interface Picture {
  /** an SVG element that stands alone; ink is `currentColor`, so that it takes the page's and prints in black */
  readonly svg: string;
  readonly title: string;
  readonly text: string;
}

/** Water and pressure lost have a colour, nothing else has; a page may set its own. */
export const WATER = 'var(--water, #1d6a84)';
export const RUST = 'var(--rust, #a5432a)';

const WIDTH = 640;
const HEIGHT = 320;
const LEFT = 56;
const RIGHT = 20;
const TOP = 28;
const BOTTOM = 44;

export interface Axis {
  readonly low: number;
  readonly high: number;
  /** text of a tick; none where it is empty */
  readonly label: (value: number) => string;
  /** where ticks stand; round values where left out */
  readonly at?: readonly number[];
  readonly name: string;
}

/** Figures along an axis, with the reader's decimal sign. */
export const tickIn =
  ({ language }: Units) =>
  (value: number): string =>
    numberText(value, 4, language, true);

/** Places of values on the paper. */
export interface Frame {
  readonly x: (value: number) => number;
  readonly y: (value: number) => number;
  readonly axes: string;
  readonly right: number;
}

export function frameOf(across: Axis, up: Axis): Frame {
  const scale = (axis: Axis, from: number, to: number) => (value: number) =>
    from + ((value - axis.low) / (axis.high - axis.low || 1)) * (to - from);
  const x = scale(across, LEFT, WIDTH - RIGHT);
  const y = scale(up, HEIGHT - BOTTOM, TOP);
  const bottom = HEIGHT - BOTTOM;
  const marksOf = (axis: Axis, count: number) => axis.at ?? ticks(axis.low, axis.high, count);
  const rows = marksOf(up, 5).map(
    (value) =>
      `${stroke(`M${LEFT - 4},${one(y(value))}H${WIDTH - RIGHT}`, 0.5, 'opacity="0.35"')}` +
      words(LEFT - 8, y(value) + 4, up.label(value), 'end'),
  );
  const columns = marksOf(across, 6).map(
    (value) =>
      `${stroke(`M${one(x(value))},${bottom}v5`, 1)}` +
      words(x(value), bottom + 18, across.label(value), anchorAt(value, across)),
  );
  const axes = [
    stroke(`M${LEFT},${TOP}V${bottom}H${WIDTH - RIGHT}`, 1),
    ...rows,
    ...columns,
    words(LEFT, TOP - 12, up.name, 'middle'),
    words(WIDTH - RIGHT, bottom + 36, across.name, 'end'),
  ].join('');
  return { x, y, axes, right: WIDTH - RIGHT };
}

/** Texts at the paper's right edge stay on it. */
function anchorAt(value: number, axis: Axis): 'middle' | 'end' {
  return axis.at && value === axis.high ? 'end' : 'middle';
}

/** Puts a drawing together; `id` tells this picture's hatching from that of others on a page. */
export function pictureOf(
  id: string,
  title: string,
  text: string,
  parts: readonly string[],
): Picture {
  const hatch =
    `<defs><pattern id="${id}-hatch" width="6" height="6" patternUnits="userSpaceOnUse" ` +
    `patternTransform="rotate(45)"><path d="M0,0V6" stroke="currentColor" stroke-width="1" opacity="0.45"/></pattern></defs>`;
  const svg =
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${HEIGHT}" role="img" ` +
    `aria-labelledby="${id}-title ${id}-text" font-size="13" fill="none">` +
    `<title id="${id}-title">${escaped(title)}</title><desc id="${id}-text">${escaped(text)}</desc>` +
    `${hatch}${parts.join('')}</svg>`;
  return { svg, title, text };
}

export const one = (value: number): string => String(Math.round(value * 10) / 10);

export function stroke(d: string, width: number, more = '', colour = 'currentColor'): string {
  return `<path d="${d}" stroke="${colour}" stroke-width="${width}" ${more}/>`;
}

/** Text on the paper. */
function words(x: number, y: number, text: string, anchor: 'start' | 'middle' | 'end'): string {
  if (text === '') return '';
  return `<text x="${one(x)}" y="${one(y)}" text-anchor="${anchor}" fill="currentColor">${escaped(text)}</text>`;
}

/** Text over what is drawn: the paper shows around its letters. */
export function label(x: number, y: number, text: string, anchor: 'start' | 'end'): string {
  return `<g stroke="var(--paper, #fff)" stroke-width="4" stroke-linejoin="round" paint-order="stroke">${words(x, y, text, anchor)}</g>`;
}

/** A path through points on the paper. */
export function through(points: readonly (readonly [number, number])[]): string {
  const path = line<readonly [number, number]>()
    .x(([x]) => Math.round(x * 10) / 10)
    .y(([, y]) => Math.round(y * 10) / 10);
  return path(points) ?? '';
}

/** The area between a lower and an upper line, hatched. */
export function hatched(
  id: string,
  upper: readonly (readonly [number, number])[],
  lower: readonly (readonly [number, number])[],
): string {
  return `<path d="${through([...upper, ...lower.toReversed()])}Z" fill="url(#${id}-hatch)"/>`;
}

/** A reading with the whiskers of its 95 % interval. */
export function reading(x: number, y: number, low: number, high: number): string {
  return (
    `<circle cx="${one(x)}" cy="${one(y)}" r="3.5" fill="currentColor"/>` +
    stroke(`M${one(x)},${one(low)}V${one(high)}`, 1)
  );
}

const escaped = (text: string): string =>
  text
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
