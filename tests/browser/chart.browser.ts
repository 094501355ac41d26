import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readyMade } from '../../shared/plant/ready-made.ts';
import { siUnits } from '../../shared/ruleset/figures.ts';
import { CHART_COLUMNS, CHART_ROWS, chartSvg, sheetOf } from '../../src/rules/booklet/chart.ts';
import { interviewSheets } from '../../src/rules/booklet/tree.ts';
import { latestRuleSet } from '../../src/rules/read.ts';
import { full, measured } from '../full.ts';
import { launch } from './pages.ts';

/** Capitals of this height are the usual least on an A3 drawing (a nominal height of ISO 3098-1; from memory). */
const LEAST_CAPITALS_MM = 2.5;
/** Strokes may come this near to the letters' box, which is larger than what is inked. */
const TOUCH_MM = 0.3;
const A3 = { width: 420, height: 297 };

const { ruleSet, words } = latestRuleSet();
const all = readyMade.flatMap(({ id, plant }) =>
  Object.keys(words).map((language) => ({ id, plant, language })),
);
// Spanish words are the longer ones
const cases = full ? all : all.filter(({ language }) => language === 'es').slice(0, 1);

let least = Number.POSITIVE_INFINITY;
let browser: Browser;
beforeAll(async () => {
  browser = await launch();
});
afterAll(() => browser.close());

describe('the wall chart as a browser prints it on A3', () => {
  it.each(cases)(
    'is legible, and nothing is cut or lies over another, for $id in $language',
    async ({ id, plant, language }) => {
      const spoken = words[language]!;
      const name = spoken.phrases[`plant-${id}`]!;
      const wanted = { rows: CHART_ROWS, columns: CHART_COLUMNS };
      const booklet = { rules: ruleSet, words: spoken, language, units: { ...siUnits, language } };
      const sheets = interviewSheets(plant, ruleSet, spoken, wanted).map((tree) =>
        sheetOf(tree, booklet, name),
      );
      expect(sheets.length).toBeGreaterThan(4);
      const page = await browser.newPage();
      expect(await page.evaluate(pictures, chartSvg(sheets))).toEqual({
        fault: null,
        sheets: sheets.length,
      });
      for (const sheet of sheets) {
        await page.setContent(`<body style="margin:0">${chartSvg([sheet])}`);
        const { boxes, leastCapitalsMm } = await page.evaluate(layout);
        least = Math.min(least, leastCapitalsMm);
        expect(leastCapitalsMm).toBeGreaterThan(LEAST_CAPITALS_MM);
        const off = boxes.filter(
          ({ x, y, right, bottom }) => x < 5 || y < 5 || right > A3.width - 5 || bottom > A3.height,
        );
        expect(off).toEqual([]);
        expect(boxes.filter((box) => box.text.endsWith('…'))).toEqual([]);
        const over = boxes.flatMap((a, i) =>
          boxes.slice(i + 1).flatMap((b) => (overlap(a, b) ? [`${a.text} × ${b.text}`] : [])),
        );
        expect(over).toEqual([]);
      }
      measured(
        'wall charts of the ready-made plants: least capitals on A3',
        least,
        'mm',
        `> ${LEAST_CAPITALS_MM}`,
      );
      await page.close();
    },
  );
});

/** In the page: whether a file is one well-formed picture, and how many sheets are in it. */
function pictures(svg: string): { fault: string | null; sheets: number } {
  const root = new DOMParser().parseFromString(svg, 'image/svg+xml').documentElement;
  const fault = root.querySelector('parsererror')?.textContent ?? null;
  return { fault, sheets: root.querySelectorAll(':scope > g[role=img]').length };
}

interface Box {
  readonly text: string;
  readonly x: number;
  readonly y: number;
  readonly right: number;
  readonly bottom: number;
}

const overlap = (a: Box, b: Box): boolean =>
  !(a.text === '' && b.text === '') &&
  Math.min(a.right, b.right) - Math.max(a.x, b.x) > TOUCH_MM &&
  Math.min(a.bottom, b.bottom) - Math.max(a.y, b.y) > TOUCH_MM;

/** In the page: every text and stroke as a box in millimetres of paper, and how high the least capitals are. */
function layout(): { boxes: Box[]; leastCapitalsMm: number } {
  const context = document.createElement('canvas').getContext('2d')!;
  let leastCapitalsMm = Number.POSITIVE_INFINITY;
  const boxes = [...document.querySelectorAll<SVGGraphicsElement>('text, path')].map((element) => {
    const box = element.getBBox();
    if (element.tagName === 'path')
      return { text: '', x: box.x, y: box.y, right: box.x + box.width, bottom: box.y + box.height };
    const { fontSize, fontFamily, fontWeight } = getComputedStyle(element);
    // measured large, then taken down to the size it has
    context.font = `${fontWeight} 1000px ${fontFamily}`;
    const { actualBoundingBoxAscent: capital } = context.measureText('H');
    const capitalsMm = (capital / 1000) * Number.parseFloat(fontSize);
    leastCapitalsMm = Math.min(leastCapitalsMm, capitalsMm);
    const baseline = Number(element.getAttribute('y'));
    return {
      text: element.textContent ?? '',
      x: box.x,
      y: baseline - capitalsMm,
      right: box.x + box.width,
      bottom: baseline + 0.25 * Number.parseFloat(fontSize),
    };
  });
  return { boxes, leastCapitalsMm };
}
