import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { full } from '../full.ts';
import { around } from './around.ts';
import { desk, phone } from './pages.ts';
import { settled } from './person.ts';

const here = around();

/** Two taps at the same place, as a wet finger that bounces or an impatient one makes them. */
async function doubleTap(page: Page, selector: string, between: number): Promise<void> {
  const target = page.locator(selector).first();
  await target.scrollIntoViewIfNeeded();
  const box = await target.boundingBox();
  if (!box) throw new Error(`${selector} is not there`);
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.click(x, y);
  await page.waitForTimeout(between);
  await page.mouse.click(x, y);
}

const step = (id: string, more = ''): string => `[data-step="${id}"][aria-busy="false"]${more}`;

/** Long enough for a second tap to have done its harm. */
const HARM_MS = 900;

/** All in the full run, the middle one in the quick. */
const taps = [
  { screen: phone, between: 60 },
  { screen: phone, between: 150 },
  { screen: phone, between: 300 },
  { screen: desk, between: 150 },
].filter(({ screen, between }) => full || (screen === phone && between === 150));

test.each(taps)(
  'a second tap after $between ms neither takes up a caution nor ticks a step, $screen.name',
  async ({ screen, between }) => {
    const { page, context, complaints } = await here.visit(screen);
    await page.goto(`${here.url}/demo`);
    await settled(page);
    await page.goto(`${here.url}/case/demo/work/change-sediment/sed-2`);
    await page.waitForSelector(step('tell-house'));

    // a step ticked: the next one stands there unticked
    await doubleTap(page, '.tick-button', between);
    await page.waitForSelector(step('parts-ready'));
    await page.waitForTimeout(HARM_MS);
    expect(await page.locator('.step').getAttribute('data-step')).toBe('parts-ready');

    // the next begins with a caution, and the caution waits to be read
    await doubleTap(page, '.tick-button', between);
    await page.locator('.caution-first').waitFor();
    await page.waitForTimeout(HARM_MS);
    expect(await page.locator('.caution-first').count()).toBe(1);
    const cautious = await page.locator('.step').getAttribute('data-step');

    // the caution taken up: its step stands there undone
    await doubleTap(page, '.tick-button', between);
    await page.waitForSelector(step(cautious ?? '', ':not(.caution-first)'));
    await page.waitForTimeout(HARM_MS);
    expect(await page.locator('.step').getAttribute('data-step')).toBe(cautious);
    expect(complaints).toEqual([]);
    await context.close();
  },
);

test('a button that does not act yet looks so', async () => {
  const { page, context } = await here.visit(phone);
  await page.goto(`${here.url}/demo`);
  await settled(page);
  await page.goto(`${here.url}/case/demo/work/change-sediment/sed-2`);
  await page.waitForSelector(step('tell-house'));
  await page.locator('.tick-button').click();
  // looked at while it stands: on a busy machine the moment is over before a second look
  const colourAt = async (selector: string): Promise<string> => {
    const button = await page.waitForFunction((of) => {
      const it = document.querySelector(`${of} .tick-button`);
      return it ? getComputedStyle(it).backgroundColor : null;
    }, selector);
    return String(await button.jsonValue());
  };
  const arming = await colourAt('[data-step="parts-ready"].arming');
  expect(await colourAt(step('parts-ready', ':not(.arming)'))).not.toBe(arming);
  await context.close();
});

test('Enter held down ticks one step and takes up no caution', async () => {
  const { page, context } = await here.visit(desk);
  await page.goto(`${here.url}/demo`);
  await settled(page);
  await page.goto(`${here.url}/case/demo/work/change-sediment/sed-2`);
  await page.waitForSelector(step('tell-house'));
  await page.locator('.tick-button').focus();
  // a second `down` without an `up` is a repeat
  for (let i = 0; i < 40; i++) {
    await page.keyboard.down('Enter');
    await page.waitForTimeout(30);
  }
  await page.keyboard.up('Enter');
  await page.waitForTimeout(HARM_MS);
  expect(await page.locator('.step').getAttribute('data-step')).toBe('parts-ready');
  await context.close();
});

test('a second tap on an answer does not answer the next question', async () => {
  const { page, context } = await here.visit(phone);
  await page.goto(`${here.url}/plant`);
  await page.locator('.choice.plant').nth(4).click();
  await page.getByRole('button', { name: 'Start the questions' }).click();
  for (const next of ['household', 'complaint']) {
    await settled(page);
    await doubleTap(page, '.answers .main', 150);
    await page.waitForSelector(`[data-question="${next}"][aria-busy="false"]`);
    await page.waitForTimeout(HARM_MS);
    expect(await page.locator('.question').getAttribute('data-question')).toBe(next);
  }
  await context.close();
});
