import { escaped } from './escape.ts';

/**
 * Text of the body, 12 points: capitals of 2.8 mm or more, over 2.5 mm, the usual least on an A3 drawing
 * (a nominal height of ISO 3098-1; the use on A3 from memory).
 */
export const TEXT = 4.2;
export const LINE = 5;
/** Mean width of a letter, as a share of its height, in the widest face a reader is likely to have (DejaVu Sans). */
const LETTER = 0.58;
/** The same for a short line of wide letters. */
const WIDE = 0.66;
/** Text of the foot: capitals of 2.5 mm or more. */
export const SMALL = 3.8;
/** Bold letters are wider: the share of them that fits where plain ones do. */
export const BOLD = 0.87;
export const INK = '#17262d';

export const middleOf = (y: number): number => y + LINE - TEXT * 0.35;
/** How many letters stand side by side. */
export const letters = (mm: number, weight = 1): number =>
  Math.max(8, Math.floor((weight * mm) / (TEXT * LETTER)));
/** Room for a line, whatever its letters. */
export const width = (line: string): number => line.length * TEXT * WIDE;

export const text = (x: number, y: number, line: string, style = ''): string =>
  `<text x="${round(x)}" y="${round(y)}"${style ? ` ${style}` : ''}>${escaped(line)}</text>`;

/** A line as heavy as its branch is likely. */
export function stroke(x1: number, y1: number, x2: number, y2: number, chance: number): string {
  const weight = round(0.2 + 1.4 * Math.sqrt(chance));
  return `<path d="M${round(x1)} ${round(y1)}L${round(x2)} ${round(y2)}" stroke="${INK}" stroke-width="${weight}" stroke-linecap="square" fill="none"/>`;
}

const round = (n: number): number => Math.round(n * 100) / 100;

/** Breaks a text into lines; what does not fit into the last is shown to go on. */
export function wrapped(whole: string, most: number, lines: number): string[] {
  const out: string[] = [];
  for (const word of whole.split(/\s+/).filter(Boolean)) {
    const last = out.at(-1);
    if (last !== undefined && `${last} ${word}`.length <= most)
      out[out.length - 1] = `${last} ${word}`;
    else out.push(word);
  }
  if (out.length <= lines) return out;
  return [...out.slice(0, lines - 1), `${(out[lines - 1] ?? '').slice(0, most - 1)}…`];
}
