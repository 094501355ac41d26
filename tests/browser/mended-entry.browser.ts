import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { readyMade } from '../../shared/plant/ready-made.ts';
import { around } from './around.ts';
import { finger } from './hands.ts';
import { armed, looking, openedCase, phone } from './pages.ts';
import { settled } from './person.ts';

const here = around();

const mind = async (page: Page): Promise<void> => {
  await armed(page, '.step.caution-first[aria-busy="false"]');
  await finger.press(page, page.locator('.caution-first .tick-button'));
};
const tick = async (page: Page): Promise<void> => {
  await armed(page, '.step[aria-busy="false"]:not(.caution-first)');
  const step = await page.locator('.step').getAttribute('data-step');
  await finger.press(page, page.locator('.ticks .tick-button'));
  // the next is another step: until then this one stands there still
  await page.waitForFunction(
    (before) => document.querySelector('.step')?.getAttribute('data-step') !== before,
    step,
    looking,
  );
};

/** At a step of a job on a supply with two filters. */
async function atJob(job: string, plant: string): Promise<Page> {
  const { page } = await here.visit(phone);
  const made = readyMade.find(({ id }) => id === plant)?.plant;
  await page.goto(`${here.url}/c/${await openedCase(here.url, made)}`);
  await settled(page);
  await page.goto(`${page.url().replace('/c/', '/case/')}/work/${job}/-`);
  return page;
}

test('of two figures one of which was too high, the other need not be typed again', async () => {
  const page = await atJob('test-pressure-hold', 'two-stages');
  await tick(page);
  await tick(page);
  await mind(page);
  await tick(page);
  await page.waitForSelector('.step[data-step="hold-read"]');
  const figures = page.locator('.step input');
  await figures.nth(0).fill('99');
  await figures.nth(1).fill('10');
  await armed(page, '.step[aria-busy="false"]');
  await finger.press(page, page.locator('.step button[type=submit]'));
  await page.locator('.work .wrong').waitFor();
  expect(await figures.nth(0).inputValue()).toBe('99');
  expect(await figures.nth(1).inputValue()).toBe('10');
  await figures.nth(0).fill('0.9');
  await armed(page, '.step[aria-busy="false"]');
  await finger.press(page, page.locator('.step button[type=submit]'));
  await page.locator('.step[data-step="hold-read"]').waitFor({ state: 'detached' });
  await page.context().close();
});
