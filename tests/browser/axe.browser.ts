import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { around } from './around.ts';
import { type Opened, screens } from './pages.ts';
import { agent } from './site.ts';

const here = around();

const press = (selector: string) => async (page: Page) => page.locator(selector).first().click();

const enter = async (page: Page): Promise<void> => {
  await page.locator('#email').fill(agent.email);
  await page.locator('#password').fill(agent.password);
  await page.locator('.sign-in .main').click();
  await page.locator('#search').waitFor();
};

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
      await page.locator('[data-step="tell-house"][aria-busy="false"] .tick-button').click();
      await page.locator('[data-step="parts-ready"][aria-busy="false"] .tick-button').click();
      await page.locator('.caution-first').waitFor();
    },
  },
  { name: 'the report', path: '/case/demo/report', ready: '.paper' },
  { name: 'the sheet for the pump house', path: '/case/demo/pump-house', ready: '.paper table' },
  { name: 'the dates', path: '/case/demo/dates', ready: '.due' },
  { name: 'handing over', path: '/case/demo/hand-over', ready: '.page h1' },
  {
    name: 'a danger sign',
    path: '/case/demo',
    ready: '.question[aria-busy="false"]',
    then: async (page) => {
      await page.locator('.earlier summary').click();
      await page.locator('.earlier .line').first().click();
      await page.locator('[data-question="danger"][aria-busy="false"] .choice').first().click();
      await page.locator('[data-question="danger"] .main').click();
      await page.locator('.stop-sign').waitFor();
    },
  },
  {
    name: 'entries of a technician',
    path: '/case/demo',
    ready: '.question[aria-busy="false"]',
    then: async (page) => {
      await page.locator('.menu summary').click();
      await page.locator('.menu input[type=radio]').nth(2).check();
      await page.locator('.entry-card').nth(10).waitFor();
      await page.locator('.entry-card summary').nth(1).click();
    },
  },
  { name: 'signing in', path: '/desk', ready: '.sign-in' },
  { name: 'the desk', path: '/desk', ready: '.sign-in', then: enter },
  {
    name: 'a call at the desk',
    path: '/desk/new',
    ready: '.plants',
    then: async (page) => {
      await page.locator('.choice.plant').nth(4).click();
      await page.locator('.call').waitFor();
    },
  },
  {
    name: 'a link with its code, and the links there are',
    path: '/desk',
    ready: '.desk .line',
    then: async (page) => {
      await page.locator('.desk .line').first().click();
      await page.locator('.agent-panel a[href$="/hand-over"]').click();
      await page.getByRole('button', { name: 'Make a link' }).click();
      await page.locator('.qr').waitFor();
      await page.locator('.links button').first().click();
    },
  },
  { name: 'no case', path: '/case/none', ready: '.page h1' },
];

/** One visitor per kind of screen goes to every place in turn: opening a browser anew for each took minutes. */
describe.each(screens)('axe finds nothing, $name', (screen) => {
  let visitor: Opened;
  beforeAll(async () => {
    visitor = await here.visit(screen);
  });
  afterAll(() => visitor.context.close());

  test.each(places)('$name', async ({ path, ready, then }) => {
    const { page, complaints } = visitor;
    complaints.length = 0;
    await page.goto(`${here.url}/demo`);
    await page.waitForSelector('.case .question, .case .entries');
    if (path !== '/case/demo') await page.goto(`${here.url}${path}`);
    await page.waitForSelector(ready);
    await then?.(page);
    // buttons just drawn are being armed, and are looked at as they stay
    await page.waitForFunction(() => document.querySelector('.arming') === null);
    const { violations } = await new AxeBuilder({ page }).analyze();
    expect(
      violations.map(({ id, nodes }) => [id, nodes.map(({ html }) => html.slice(0, 160))]),
    ).toEqual([]);
    expect(complaints).toEqual([]);
  });
});
