import type { Answer } from '../../../shared/case/answer.ts';
import { say, sayTaps, sayValue, sureness } from '../../../shared/diagnosis/say.ts';
import type { RuleSet } from '../../../shared/ruleset/schema.ts';
import type { Words } from '../../../shared/ruleset/words.ts';
import { alikeAsOne, cutToFit } from './cut.ts';
import { escaped } from './escape.ts';
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
import { leavesOf, settledShare, type TreeNode } from './tree.ts';

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
export function chartSvg(whole: TreeNode, rules: RuleSet, words: Words, plantName: string): string {
  const told = (tree: TreeNode) => alikeAsOne(tree, reads);
  const start = told(cutToFit(whole, (tree) => rowsOf(told(tree)).bottom <= HEIGHT - FOOT));
  const { columnMm, tops } = rowsOf(start);
  const parts: string[] = [];
  draw(start, 0);
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
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${HEIGHT}" width="${WIDTH}mm" height="${HEIGHT}mm" role="img" aria-label="${escaped(title)}" font-family="'Atkinson Hyperlegible', system-ui, sans-serif" font-size="${TEXT}" fill="${INK}">`,
    `<rect width="${WIDTH}" height="${HEIGHT}" fill="#fff"/>`,
    text(MARGIN, 14, title, `font-size="${titleSize(title)}" font-weight="bold"`),
    ...wrapped(head, letters(WIDTH - 2 * MARGIN), 3).map((line, i) =>
      text(MARGIN, 21.5 + i * LINE, line),
    ),
    ...parts,
    text(MARGIN, HEIGHT - 5, foot, `font-size="${SMALL}"`),
    '</svg>',
  ].join('\n');

  /** Where each row of a tree begins. A row is as high as the tallest of what begins in it. */
  function rowsOf(tree: TreeNode): { columnMm: number; tops: number[]; bottom: number } {
    const leaves = leavesOf(tree);
    const deepest = Math.max(1, ...leaves.map(({ depth }) => depth));
    // the last answer of a branch leaves room for what was found
    const columnMm = Math.min(60, (WIDTH - 2 * MARGIN - FINDING) / deepest);
    const heights = leaves.map(() => 1);
    measure(tree, 0);
    const topOf = (row: number) =>
      TOP + LINE * heights.slice(0, row).reduce((sum, lines) => sum + lines + GAP, 0);
    return { columnMm, tops: heights.map((_, row) => topOf(row)), bottom: topOf(heights.length) };

    function measure(node: TreeNode, row: number): number {
      const own =
        node.children.length > 0
          ? answerLines(node, columnMm).length + askedLines(node, columnMm).length
          : Math.max(answerLines(node, columnMm).length, foundLines(node, columnMm).length);
      heights[row] = Math.max(heights[row] ?? 1, own);
      if (node.children.length === 0) return 1;
      return node.children.reduce((taken, child) => taken + measure(child, row + taken), 0);
    }
  }

  function answerLines({ depth, given }: TreeNode, columnMm: number): string[] {
    if (depth === 0) return [];
    return wrapped(given.map(answerText).join(' / '), letters(columnMm - 6), MOST_LINES);
  }

  function askedLines(node: TreeNode, columnMm: number): string[] {
    if (node.depth === 0 || node.children.length === 0) return [];
    return wrapped(askedText(node), letters(columnMm - 4, BOLD), MOST_LINES);
  }

  /** What stands at the end of a branch, in what is left of the row. */
  function foundLines(node: TreeNode, columnMm: number): string[] {
    const room = WIDTH - MARGIN - foundX(node, columnMm);
    return wrapped(endText(node), letters(room, node.result.next ? 1 : BOLD), MOST_LINES);
  }

  /** Draws a node from its row on and gives the number of rows it takes. */
  function draw(node: TreeNode, row: number): number {
    const isStart = node === start;
    const x = MARGIN + (node.depth - 1) * columnMm;
    const y = tops[row] ?? TOP;
    const answer = answerLines(node, columnMm);
    parts.push(...answer.map((line, i) => text(x, y + (i + 1) * LINE, line)));
    if (node.children.length === 0) {
      const foundAt = foundX(node, columnMm);
      const weight = node.result.next ? '' : 'font-weight="bold"';
      parts.push(
        stroke(foundAt - 3, middleOf(y), foundAt - 1.2, middleOf(y), node.chance),
        ...foundLines(node, columnMm).map((line, i) =>
          text(foundAt, y + (i + 1) * LINE, line, weight),
        ),
      );
      return 1;
    }
    if (isStart) parts.push(text(MARGIN, y - 1.8, askedText(node), ASKED));
    parts.push(
      ...askedLines(node, columnMm).map((line, i) =>
        text(x, y + (answer.length + 1 + i) * LINE, line, ASKED),
      ),
    );
    const turnX = x + columnMm - 3;
    const ownY = middleOf(y);
    let next = row;
    node.children.forEach((child, i) => {
      const childY = middleOf(tops[next] ?? TOP);
      if (!isStart) {
        const fromX = i === 0 ? Math.min(turnX, x + width(answer[0] ?? '') + 1.5) : turnX;
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
      return say(words, 'booklet-about-flow', { lpm: Math.round((60 * litres) / seconds) });
    }
    if (question.kind === 'readings') {
      const { bar } = value as { bar: Record<string, number> };
      const shown = Object.entries(bar).map(([gauge, each]) => `${gauge} ${each.toFixed(1)}`);
      return say(words, 'booklet-about-bar', { readings: shown.join(', ') });
    }
    return sayValue(words, id, question, value);
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

/** As large as fits on one line. */
const titleSize = (title: string): number =>
  Math.min(7, (TEXT * (WIDTH - 2 * MARGIN)) / (width(title) * 1.1));
const foundX = ({ depth }: TreeNode, columnMm: number): number => MARGIN + depth * columnMm;
