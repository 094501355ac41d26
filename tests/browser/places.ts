import type { Page } from 'playwright-core';
import { armed } from './pages.ts';
import { agent, owner } from './site.ts';

/** One screen in one state: its address, what tells that it is there, and what to open on it first. */
export interface Place {
  readonly name: string;
  readonly path: string;
  readonly ready: string;
  readonly then?: (page: Page) => Promise<void>;
  /** leaves the example other than it was */
  readonly changes?: true;
}

const press = (selector: string) => async (page: Page) => page.locator(selector).first().click();

const enterAs = (who: typeof agent) => async (page: Page) => {
  await page.locator('#email').fill(who.email);
  await page.locator('#password').fill(who.password);
  await page.locator('.sign-in .main').click();
  await page.locator('#search').waitFor();
};

/** Every screen, with the example as it is at first. Those of the desk come last, in the order of a call. */
export const places: readonly Place[] = [
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
    changes: true,
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
    changes: true,
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
    changes: true,
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
  { name: 'the desk', path: '/desk', ready: '.sign-in', then: enterAs(agent) },
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
  {
    name: 'the people, with one of them opened',
    path: '/desk',
    ready: '.desk .line',
    then: async (page) => {
      await page.locator('.desk .spread button').click();
      await page.locator('.sign-in').waitFor();
      await enterAs(owner)(page);
      await page.locator('a[href="/desk/people"]').click();
      await page.locator('.person summary').first().click();
      await page.getByRole('button', { name: 'Let in no more' }).first().click();
    },
  },
  { name: 'no case', path: '/case/none', ready: '.page h1' },
];

/**
 * A visitor who goes from place to place within the page, as its links do, past the start so that nothing stays open; the
 * example is begun anew only where it is no longer as it was.
 */
export function walk(page: Page, url: string): (place: Place) => Promise<void> {
  let isFresh = false;
  const show = async (path: string, ready: string): Promise<void> => {
    await page.evaluate((to) => {
      history.pushState(null, '', to);
      dispatchEvent(new PopStateEvent('popstate'));
    }, path);
    await page.waitForSelector(ready);
  };
  return async ({ path, ready, then, changes }) => {
    if (!page.url().startsWith(url)) {
      await page.goto(url);
      // it listens to being sent elsewhere only once it stands
      await page.waitForSelector('.start');
    }
    if (!isFresh) await show('/demo', '.case .question, .case .entries');
    isFresh = !changes;
    await show('/', '.start');
    await show(path, ready);
    await then?.(page);
    // buttons just drawn are being armed, and are looked at as they stay
    await armed(page);
  };
}
