import type { Answer } from '../../../shared/case/answer.ts';
import { say, sayTaps, sayValue, sureness } from '../../../shared/diagnosis/say.ts';
import { flowText, pressureFigure } from '../../../shared/ruleset/figures.ts';
import { alikeAsOne, cutToFit } from './cut.ts';
import { escaped } from './escape.ts';
import type { Booklet } from './page.ts';
import {
  BOLD,
  INK,
  LINE,
  letters,
  middleOf,
  SMALL,
  stroke,
  TEXT,
  text,
  width,
  wrapped,
} from './paper.ts';
import { settledShare, type TreeNode } from './tree.ts';

interface Found {
  readonly lines: readonly string[];
  /** nothing more is worth asking */
  readonly ends: boolean;
  /** line of its cell that it stands beside: where the last answer begins */
  readonly beside: number;
}

/** One sheet of a chart: its title, and all that is drawn on it, in millimetres from its own corner. */
export interface ChartSheet {
  readonly title: string;
  readonly drawn: readonly string[];
}

/** What stands together in one column, with the cells behind it or what was found. */
interface Cell {
  readonly column: number;
  readonly lines: readonly { readonly text: string; readonly style: string }[];
  readonly chance: number;
  readonly children: readonly Cell[];
  readonly found: Found | null;
}

/** A3 on its side, in millimetres. */
const WIDTH = 420;
const HEIGHT = 297;
const MARGIN = 10;
const TOP = 43;
const FOOT = 12;
/** Room kept at the right of the deepest branch for what is found there. */
const FINDING = 92;
/** No text is cut short of this; a row is as high as its texts. */
const MOST_LINES = 9;
/** Lines of white between two rows. */
const GAP = 0.35;
const ASKED = 'fill="#1d6a84" font-weight="bold"';
/** Rows of two lines; as many columns as hold an answer of twenty letters. */
export const CHART_ROWS = Math.floor((HEIGHT - TOP - FOOT) / (2 * LINE));
export const CHART_COLUMNS = 6;

/**
 * The tree drawn as a chart for the wall; the likeliest answer goes straight on, the others turn down. What does not
 * fit on the sheet at the full size of its letters is cut, the rarest first.
 */
export function sheetOf(
  whole: TreeNode,
  { rules, words, units }: Pick<Booklet, 'rules' | 'words' | 'units'>,
  plantName: string,
): ChartSheet {
  const told = (tree: TreeNode) => alikeAsOne(tree, reads);
  const start = told(cutToFit(whole, (tree) => rowsOf(told(tree)).bottom <= HEIGHT - FOOT));
  const { sheet, columnMm, tops } = rowsOf(start);
  const parts: string[] = [text(MARGIN, TOP - 1.8, askedText(start), ASKED)];
  draw(sheet, 0);
  const begun = start.answers.map((answer) =>
    say(words, 'booklet-chart-first', {
      question: words.questions[answer.question]?.short ?? answer.question,
      answer: answerText(answer),
    }),
  );
  const percent = Math.round(100 * settledShare(start));
  const last = start.answers.at(-1);
  const title = say(words, 'booklet-chart-title', {
    plant: plantName,
    answer: last ? answerText(last) : '',
  });
  const head = [say(words, 'booklet-chart-how'), ...begun].join(' ');
  const foot = say(words, 'booklet-chart-foot', { version: rules.head.version, percent });
  const drawn = [
    text(MARGIN, 14, title, `font-size="${titleSize(title)}" font-weight="bold"`),
    ...wrapped(head, letters(WIDTH - 2 * MARGIN), 3).map((line, i) =>
      text(MARGIN, 21.5 + i * LINE, line),
    ),
    ...parts,
    text(MARGIN, HEIGHT - 5, foot, `font-size="${SMALL}"`),
  ];
  return { title, drawn };

  /** Where each row of a tree begins. */
  function rowsOf(tree: TreeNode): {
    sheet: Cell;
    columnMm: number;
    tops: number[];
    bottom: number;
  } {
    // the last answer of a branch leaves room for what was found
    const columnMm = Math.min(60, (WIDTH - 2 * MARGIN - FINDING) / Math.max(1, columnsOf(tree)));
    const sheet = cellOf(tree, 0, columnMm);
    const heights: number[] = [];
    measure(sheet, 0);
    const topOf = (row: number) =>
      TOP + LINE * heights.slice(0, row).reduce((sum, lines) => sum + lines + GAP, 0);
    const tops = heights.map((_, row) => topOf(row));
    return { sheet, columnMm, tops, bottom: topOf(heights.length) };

    /** A cell may reach down beside the rows behind it; the last of them makes up what is missing. */
    function measure({ lines, found, children }: Cell, row: number): number {
      const rows = children.reduce((taken, child) => taken + measure(child, row + taken), 0);
      if (found) heights[row] = found.beside + found.lines.length;
      const last = row + Math.max(1, rows) - 1;
      const there = heights.slice(row, last + 1).reduce((sum, height) => sum + height + GAP, -GAP);
      heights[last] = (heights[last] ?? 0) + Math.max(0, lines.length - there);
      return Math.max(1, rows);
    }
  }

  /** What stands together in a column: an answer, what is asked next, and on, as long as only one answer is likely. */
  function cellOf(node: TreeNode, column: number, columnMm: number): Cell {
    const isStart = column === 0;
    const answer = isStart ? [] : answerLines(node, columnMm);
    const asked = isStart ? [] : askedLines(node, columnMm);
    const lines = [
      ...answer.map((line) => ({ text: line, style: '' })),
      ...asked.map((line) => ({ text: line, style: ASKED })),
    ];
    const [only, ...others] = node.children;
    if (only && others.length === 0 && !isStart) {
      const rest = cellOf(only, column, columnMm);
      const found = rest.found && { ...rest.found, beside: lines.length + rest.found.beside };
      return { ...rest, found, lines: [...lines, ...rest.lines] };
    }
    const { chance } = node;
    if (!only)
      return { column, lines, chance, children: [], found: foundOf(node, column, columnMm) };
    const children = node.children.map((child) => cellOf(child, column + 1, columnMm));
    return { column, lines, chance, children, found: null };
  }

  function answerLines({ given }: TreeNode, columnMm: number): string[] {
    return wrapped(given.map(answerText).join(' / '), letters(columnMm - 6), MOST_LINES);
  }

  function askedLines(node: TreeNode, columnMm: number): string[] {
    if (node.children.length === 0) return [];
    return wrapped(askedText(node), letters(columnMm - 4, BOLD), MOST_LINES);
  }

  /** What stands at the end of a branch, in what is left of the row. */
  function foundOf(node: TreeNode, column: number, columnMm: number): Found {
    const ends = node.result.next === null;
    const room = WIDTH - MARGIN - foundX(column, columnMm);
    return {
      lines: wrapped(endText(node), letters(room, ends ? BOLD : 1), MOST_LINES),
      ends,
      beside: 0,
    };
  }

  /** Draws a cell from its row on and gives the number of rows it takes. */
  function draw({ column, lines, chance, found, children }: Cell, row: number): number {
    const isStart = column === 0;
    const x = MARGIN + (column - 1) * columnMm;
    const y = tops[row] ?? TOP;
    parts.push(
      ...lines.map(({ text: line, style }, i) => text(x, y + (i + 1) * LINE, line, style)),
    );
    if (found) {
      const foundAt = foundX(column, columnMm);
      const weight = found.ends ? 'font-weight="bold"' : '';
      const top = y + found.beside * LINE;
      parts.push(
        stroke(foundAt - 3, middleOf(top), foundAt - 1.2, middleOf(top), chance),
        ...found.lines.map((line, i) => text(foundAt, top + (i + 1) * LINE, line, weight)),
      );
      return 1;
    }
    const turnX = x + columnMm - 3;
    const ownY = middleOf(y);
    let next = row;
    children.forEach((child, i) => {
      const childY = middleOf(tops[next] ?? TOP);
      if (!isStart) {
        const fromX = i === 0 ? Math.min(turnX, x + width(lines[0]?.text ?? '') + 1.5) : turnX;
        parts.push(stroke(fromX, childY, turnX + 1.8, childY, child.chance));
        if (i > 0) parts.push(stroke(turnX, ownY, turnX, childY, child.chance));
      }
      next += draw(child, next);
    });
    return next - row;
  }

  function answerText({ question: id, value }: Answer): string {
    const question = rules.questions[id];
    if (!question) return '';
    if (question.kind === 'flow') {
      const { litres, seconds } = value as { litres: number; seconds: number };
      return say(words, 'booklet-about-flow', { flow: flowText((60 * litres) / seconds, units) });
    }
    if (question.kind === 'readings') {
      const { bar } = value as { bar: Record<string, number> };
      const shown = Object.entries(bar).map(
        ([gauge, each]) => `${gauge} ${pressureFigure(each, units)}`,
      );
      return say(words, 'booklet-about-bar', { readings: `${shown.join('; ')} ${units.pressure}` });
    }
    return sayValue(words, id, question, value, units);
  }

  function askedText(node: TreeNode): string {
    return say(words, 'booklet-asked', { question: questionText(node) });
  }

  function questionText({ result: { next } }: TreeNode): string {
    if (!next) return '';
    const short = words.questions[next.question]?.short ?? next.question;
    return next.ask ? `${short}, ${sayTaps(words, next.ask.taps)}` : short;
  }

  /** Everything that stands behind an answer. */
  function reads(node: TreeNode): string {
    if (node.children.length === 0) return endText(node);
    const behind = node.children.map((child) => `${child.given.map(answerText)}: ${reads(child)}`);
    return `${questionText(node)} ${behind.join('; ')}`;
  }

  function endText(node: TreeNode): string {
    const { causes, plan, next, stopped } = node.result;
    if (stopped) return stopped.call;
    const [cause] = causes;
    const name = words.causes[cause?.id ?? '']?.name ?? '';
    const found = `${name} (${sureness(words, cause?.probability ?? 0)})`;
    if (next) return say(words, 'booklet-go-on', { question: questionText(node), found });
    const job = words.jobs[plan[0]?.job ?? '']?.name;
    return job ? say(words, 'booklet-do', { found, job }) : found;
  }
}

/** Sheets as one picture (SVG), one under another, each of the size of its paper. */
export function chartSvg(sheets: readonly ChartSheet[]): string {
  const height = HEIGHT * sheets.length;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${height}" width="${WIDTH}mm" height="${height}mm" font-family="'Atkinson Hyperlegible', system-ui, sans-serif" font-size="${TEXT}" fill="${INK}">`,
    ...sheets.flatMap(({ title, drawn }, i) => [
      `<g transform="translate(0 ${i * HEIGHT})" role="img" aria-label="${escaped(title)}">`,
      `<rect width="${WIDTH}" height="${HEIGHT}" fill="#fff"/>`,
      ...drawn,
      '</g>',
    ]),
    '</svg>',
  ].join('\n');
}

/** As large as fits on one line. */
const titleSize = (title: string): number =>
  Math.min(7, (TEXT * (WIDTH - 2 * MARGIN)) / (width(title) * 1.1));
const foundX = (column: number, columnMm: number): number => MARGIN + column * columnMm;

/** Columns that a tree takes: one for every question with several answers. */
function columnsOf({ children }: TreeNode, isStart = true): number {
  const deepest = Math.max(0, ...children.map((child) => columnsOf(child, false)));
  return deepest + (isStart || children.length > 1 ? 1 : 0);
}
