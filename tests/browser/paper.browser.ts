import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { around } from './around.ts';
import { desk, type Opened } from './pages.ts';
import { doJob, settled } from './person.ts';

const here = around();
/** Where to leave the printed pages for a look, when somebody wants one. */
const keepIn = process.env.GAUGEWALK_PAPER;

let visitor: Opened;
beforeAll(async () => {
  // whoever reads in the dark prints black on white too
  visitor = await here.visit({ ...desk, colorScheme: 'dark' });
  await visitor.page.goto(`${here.url}/demo`);
  await settled(visitor.page);
});
afterAll(() => visitor.context.close());

/** How many pages a PDF has: each is one object of type Page (ISO 32000-1, 7.7.3.3). */
const pagesOf = (pdf: Buffer): number =>
  pdf.toString('latin1').match(/\/Type\s*\/Page(?![a-z])/g)?.length ?? 0;

const speak = (page: Page, language: string): Promise<void> =>
  page.evaluate(
    (chosen) => localStorage.setItem('gaugewalk-settings', JSON.stringify({ language: chosen })),
    language,
  );

const FORMATS = ['A4', 'Letter'];
const languages = ['en', 'es'].map((language) => ({ language }));

/** How many pages a sheet takes on each paper. */
async function printed(
  sheet: 'pump-house' | 'report',
  language: string,
  name: string = sheet,
): Promise<number[]> {
  const { page } = visitor;
  await speak(page, language);
  await page.goto(`${here.url}/case/demo/${sheet}`);
  await page.waitForSelector(sheet === 'report' ? '.paper .due' : '.paper table');
  const pages: number[] = [];
  for (const format of FORMATS) {
    const pdf = await page.pdf({ format, printBackground: false });
    if (keepIn) writeFileSync(join(keepIn, `${name}-${format}-${language}.pdf`), pdf);
    pages.push(pagesOf(pdf));
  }
  return pages;
}

describe(`one page each on ${FORMATS.join(' and on ')}`, () => {
  test.each(languages)('the sheet for the pump house, $language', async ({ language }) => {
    expect(await printed('pump-house', language)).toEqual([1, 1]);
  });

  test.each(languages)('the report of ten answers, $language', async ({ language }) => {
    expect(await printed('report', language, 'report-before')).toEqual([1, 1]);
  });

  test('the report with work and its proof', async () => {
    const { page, complaints } = visitor;
    await speak(page, 'en');
    await page.goto(`${here.url}/case/demo/work/change-sediment/sed-2`);
    await doJob(page, ['3.4', '2.6', '2.5', '2.5']);
    await page.getByRole('button', { name: 'Write it down and go on' }).click();
    await page.waitForSelector('.case');
    for (const { language } of languages)
      expect(await printed('report', language, 'report-after')).toEqual([1, 1]);
    expect(complaints).toEqual([]);
  });
});
