import type { Answer } from '../../../shared/case/answer.ts';
import { say, sayTaps, sayValue, sureness } from '../../../shared/diagnosis/say.ts';
import type { RuleSet } from '../../../shared/ruleset/schema.ts';
import type { Words } from '../../../shared/ruleset/words.ts';
import { escaped } from './escape.ts';
import { leavesOf, settledShare, type TreeNode } from './tree.ts';

/** A3 on its side, in millimetres. */
const WIDTH = 420;
const HEIGHT = 297;
const MARGIN = 10;
/** Text of the body: 3.1 mm, about 9 points, is read at arm's length. */
const TEXT = 3.1;
const LINE = 3.7;
/** Mean width of a letter, as a share of its height (a face of even width, measured on running text). */
const LETTER = 0.53;
const TOP = 36;
const FOOT = 12;
/** Room kept at the right of the deepest branch for what is found there. */
const FINDING = 78;
/** Lines of white between two rows. */
const GAP = 0.35;
const INK = '#17262d';
const ASKED = 'fill="#1d6a84" font-weight="bold"';
/** Rows of three lines; as many columns as hold an answer of two dozen letters. */
export const CHART_ROWS = Math.floor((HEIGHT - TOP - FOOT) / (3 * LINE));
export const CHART_COLUMNS = 8;

/** The tree drawn as a chart for the wall; the likeliest answer goes straight on, the others turn down. */
export function chartSvg(start: TreeNode, rules: RuleSet, words: Words, plantName: string): string {
  const leaves = leavesOf(start);
  const deepest = Math.max(1, ...leaves.map(({ depth }) => depth));
  // the last answer of a branch leaves room for what was found
  const columnMm = Math.min(52, (WIDTH - 2 * MARGIN - FINDING) / deepest);
  const parts: string[] = [];
  // a row is as high as the tallest of what begins in it
  const rowLines = leaves.map(() => 1);
  measure(start, 0);
  const lines = rowLines.reduce((a, b) => a + b, 0) + GAP * leaves.length;
  const shrink = Math.min(1, (HEIGHT - TOP - FOOT) / (lines * LINE));
  const tops = rowLines.map(
    (_, i) => TOP + LINE * (rowLines.slice(0, i).reduce((a, b) => a + b, 0) + GAP * i),
  );
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
    text(MARGIN, 14, title, 'font-size="7" font-weight="bold"'),
    ...wrapped(head, letters(WIDTH - 2 * MARGIN), 3).map((line, i) =>
      text(MARGIN, 20 + i * LINE, line),
    ),
    `<g transform="translate(${MARGIN} ${TOP}) scale(${round(shrink)}) translate(${-MARGIN} ${-TOP})">`,
    ...parts,
    '</g>',
    text(MARGIN, HEIGHT - 5, foot, 'font-size="2.8"'),
    '</svg>',
  ].join('\n');

  function answerLines(node: TreeNode): string[] {
    const given = node.answers.at(-1);
    return node === start || !given ? [] : wrapped(answerText(given), letters(columnMm - 4), 3);
  }

  function askedLines(node: TreeNode): string[] {
    if (node === start || node.children.length === 0) return [];
    // bold letters are wider
    return wrapped(`${questionText(node)}?`, Math.floor(0.9 * letters(columnMm - 4)), 2);
  }

  function measure(node: TreeNode, row: number): number {
    const own = answerLines(node).length + askedLines(node).length;
    const end = node.children.length === 0 ? 2.6 : 0;
    rowLines[row] = Math.max(rowLines[row] ?? 1, own, end);
    if (node.children.length === 0) return 1;
    return node.children.reduce((taken, child) => taken + measure(child, row + taken), 0);
  }

  /** Draws a node from its row on and gives the number of rows it takes. */
  function draw(node: TreeNode, row: number): number {
    const isStart = node === start;
    const x = MARGIN + (node.depth - 1) * columnMm;
    const y = tops[row] ?? TOP;
    const answer = answerLines(node);
    parts.push(...answer.map((line, i) => text(x, y + (i + 1) * LINE, line)));
    if (node.children.length === 0) {
      finding(node, isStart ? MARGIN : x + columnMm, y);
      return 1;
    }
    if (isStart) parts.push(text(MARGIN, y - 1.8, `${questionText(node)}?`, ASKED));
    parts.push(
      ...askedLines(node).map((line, i) =>
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
        parts.push(stroke(fromX, childY, turnX + 2.2, childY, child.chance));
        if (i > 0) parts.push(stroke(turnX, ownY, turnX, childY, child.chance));
      }
      next += draw(child, next);
    });
    return next - row;
  }

  /** What stands at the end of a branch, in what is left of the row. */
  function finding(node: TreeNode, x: number, y: number): void {
    const weight = node.result.next ? '' : 'font-weight="bold"';
    // bold letters are wider
    const room = Math.floor(letters(WIDTH - MARGIN - x) * (weight ? 0.92 : 1));
    parts.push(
      stroke(x - 3, middleOf(y), x - 0.8, middleOf(y), node.chance),
      ...wrapped(endText(node), room, 3).map((line, i) =>
        text(x, y + (i + 1) * LINE, line, weight),
      ),
    );
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

  function questionText({ result: { next } }: TreeNode): string {
    if (!next) return '';
    const short = words.questions[next.question]?.short ?? next.question;
    return next.ask ? `${short}, ${sayTaps(words, next.ask.taps)}` : short;
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

const middleOf = (y: number): number => y + LINE - TEXT * 0.35;
const letters = (mm: number): number => Math.max(8, Math.floor(mm / (TEXT * LETTER)));
const width = (line: string): number => line.length * TEXT * LETTER;

const text = (x: number, y: number, line: string, style = ''): string =>
  `<text x="${round(x)}" y="${round(y)}"${style ? ` ${style}` : ''}>${escaped(line)}</text>`;

/** A line as heavy as its branch is likely. */
function stroke(x1: number, y1: number, x2: number, y2: number, chance: number): string {
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
