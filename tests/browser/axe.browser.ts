import { AxeBuilder } from '@axe-core/playwright';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { launch, screens, visit } from './pages.ts';
import { openSite, type Site } from './site.ts';

let browser: Browser;
let site: Site;
beforeAll(async () => {
  [browser, site] = await Promise.all([launch(), openSite()]);
});
afterAll(async () => {
  await browser.close();
  await site.end();
});

const press = (selector: string) => async (page: Page) => page.locator(selector).first().click();

/** Every screen: its address, what tells that it is there, and what to open on it first. */
const places: readonly {
  readonly name: string;
  readonly path: string;
  readonly ready: string;
  readonly then?: (page: Page) => Promise<void>;
}[] = [
  { name: 'start', path: '/', ready: '.start' },
  { name: 'choosing a plant', path: '/plant', ready: '.plants' },
  { name: 'a question', path: '/case/demo', ready: '.question' },
  {
    name: 'a question with its reason',
    path: '/case/demo',
    ready: '.question',
    then: press('.helps button'),
  },
  {
    name: 'earlier answers',
    path: '/case/demo',
    ready: '.question',
    then: press('.earlier summary'),
  },
  { name: 'the menu', path: '/case/demo', ready: '.question', then: press('.menu summary') },
  {
    name: 'the line with a part',
    path: '/case/demo',
    ready: '.question',
    then: async (page) => {
      if (await page.locator('.views').isVisible())
        await page.locator('.views button').nth(1).click();
      await page.locator('.plant-line [role=button]').nth(5).click();
      await page.locator('.in-words summary').click();
    },
  },
  {
    name: 'the causes',
    path: '/case/demo',
    ready: '.question',
    then: async (page) => {
      if (await page.locator('.views').isVisible())
        await page.locator('.views button').nth(2).click();
      await page.locator('.ranking summary').first().click();
    },
  },
  {
    name: 'correcting the plant',
    path: '/case/demo/plant',
    ready: '.setup',
    then: press('.part-row summary'),
  },
  { name: 'a step of work', path: '/case/demo/work/change-sediment/sed-2', ready: '.step' },
  {
    name: 'a caution of work',
    path: '/case/demo/work/change-sediment/sed-2',
    ready: '.step',
    then: async (page) => {
      for (let i = 0; i < 2; i++) {
        await page.locator('.tick-button').click();
        await page.waitForTimeout(600);
      }
      await page.locator('.caution-first').waitFor();
    },
  },
  { name: 'the report', path: '/case/demo/report', ready: '.paper' },
  { name: 'the sheet for the pump house', path: '/case/demo/pump-house', ready: '.paper table' },
  { name: 'the dates', path: '/case/demo/dates', ready: '.due' },
  { name: 'handing over', path: '/case/demo/hand-over', ready: '.page h1' },
  { name: 'signing in', path: '/desk', ready: '.sign-in' },
  { name: 'no case', path: '/case/none', ready: '.page h1' },
];

describe.each(screens)('axe finds nothing, $name', (screen) => {
  test.each(places)('$name', async ({ path, ready, then }) => {
    const { page, context, complaints } = await visit(browser, screen);
    await page.goto(`${site.url}/demo`);
    await page.waitForSelector('.case');
    if (path !== '/case/demo') await page.goto(`${site.url}${path}`);
    await page.waitForSelector(ready);
    await then?.(page);
    const { violations } = await new AxeBuilder({ page }).analyze();
    expect(
      violations.map(({ id, nodes }) => [id, nodes.map(({ html }) => html.slice(0, 160))]),
    ).toEqual([]);
    expect(complaints).toEqual([]);
    await context.close();
  });
});
