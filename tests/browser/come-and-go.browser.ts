import { expect, test } from 'vitest';
import { around } from './around.ts';
import { desk, phone, turnTo } from './pages.ts';
import { settled } from './person.ts';

const here = around();

/** So many times: what a screen left behind shows once it is left behind twice. */
const TIMES = 5;

test('a case that is left and come back to stands there once, however the screen is turned meanwhile', async () => {
  const { page, context, complaints } = await here.visit(phone);
  await page.goto(`${here.url}/demo`);
  await settled(page);
  const cases: number[] = [];
  for (let i = 0; i < TIMES; i++) {
    for (const screen of [desk, phone]) {
      await turnTo(page, screen);
      await page.waitForTimeout(100);
      cases.push(await page.locator('.case').count());
    }
    await page.locator('.case-head a').first().click();
    await page.locator('.start').waitFor();
    cases.push(1 + (await page.locator('.case').count()));
    await page.goBack();
    await page.locator('.question').first().waitFor();
  }
  expect(cases).toEqual(Array(3 * TIMES).fill(1));
  expect(complaints).toEqual([]);
  await context.close();
});
