import { expect, test } from 'vitest';
import { around } from './around.ts';
import { type Opened, phone } from './pages.ts';
import { doJob, settled } from './person.ts';

const here = around();

const chosen = { language: 'es', pressure: 'psi', volume: 'US gal' };
/** Speaks to the visitor as chosen from the next page on. */
const speak = ({ page }: Opened, settings: object): Promise<void> =>
  page.evaluate(
    (told) => localStorage.setItem('gaugewalk-settings', JSON.stringify(told)),
    settings,
  );

/** Lines on the screen, those of pictures and closed lists included, that speak of another unit or decimal sign. */
const foreign = async ({ page }: Opened): Promise<string[]> => {
  const lines = await page.evaluate(() => {
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    const texts: string[] = [];
    while (walker.nextNode()) {
      const parent = walker.currentNode.parentElement;
      if (parent && !parent.closest('script, style, option')) {
        texts.push(walker.currentNode.textContent ?? '');
      }
    }
    for (const one of document.querySelectorAll('[aria-label]')) {
      texts.push(one.getAttribute('aria-label') ?? '');
    }
    return texts;
  });
  expect(lines.join('').length).toBeGreaterThan(200);
  // what stands on a pump's own plate is told as it stands there
  const told = lines.map((line) => line.replace(/L\/min o m³\/h \([^()]*\)/, ''));
  return told.filter((line) => /\bbar\b|kPa|L\/min|\blitros\b|\d L\b|\d\.\d/.test(line));
};

test('every screen of a case speaks the units and the decimal sign that were chosen', async () => {
  const visitor = await here.visit(phone);
  const { page, complaints } = visitor;
  await page.goto(`${here.url}/demo`);
  await settled(page);
  await speak(visitor, chosen);
  const found: Record<string, string[]> = {};
  await page.goto(`${here.url}/case/demo`);
  await settled(page);
  for (const view of [0, 1, 2]) {
    await page.locator('.views button').nth(view).click();
    found[`view ${view}`] = await foreign(visitor);
  }
  for (const [sheet, ready] of [
    ['dates', '.record-picture'],
    ['report', '.paper .due'],
    ['pump-house', '.paper table'],
    ['plant', '.labels'],
  ] as const) {
    await page.goto(`${here.url}/case/demo/${sheet}`);
    await page.locator(ready).first().waitFor();
    found[sheet] = await foreign(visitor);
    // the longer words and figures scroll nothing sideways
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(phone.width);
  }
  expect(found).toEqual(Object.fromEntries(Object.keys(found).map((name) => [name, []])));
  expect(complaints).toEqual([]);
  await visitor.context.close();
});

test('what a job came to is told with the reader’s decimal sign', async () => {
  const visitor = await here.visit(phone);
  const { page } = visitor;
  await page.goto(`${here.url}/demo`);
  await settled(page);
  await speak(visitor, { ...chosen, language: 'en' });
  await page.goto(`${here.url}/case/demo/work/change-sediment/sed-2`);
  // 3.4, 2.7 and 2.5 bar
  await doJob(page, ['49', '38.6', '36.4', '36.4']);
  await speak(visitor, chosen);
  await page.reload();
  await page.getByText(/ahora \d,\d veces/).waitFor();
  expect(await foreign(visitor)).toEqual([]);
  await visitor.context.close();
});
