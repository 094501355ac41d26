import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { readyMade } from '../../shared/plant/ready-made.ts';
import { around } from './around.ts';
import { finger } from './hands.ts';
import { armed, openedCase, screensFor } from './pages.ts';
import { answerAll } from './person.ts';

const here = around();
const plantOf = (id: string) => readyMade.find((one) => one.id === id)?.plant;

/** Minds the caution of a step, and gives the answer named, or ticks it. */
async function tick(page: Page, answer?: string): Promise<void> {
  await armed(page, '.step[aria-busy="false"]');
  const caution = page.locator('.caution-first .tick-button');
  if (await caution.isVisible()) {
    await finger.press(page, caution);
    await armed(page, '.step[aria-busy="false"]:not(.caution-first)');
  }
  const ticks = page.locator('.ticks');
  await finger.press(
    page,
    answer === undefined
      ? ticks.locator('.tick-button')
      : ticks.getByRole('button', { name: answer, exact: true }),
  );
}

const atStep = (page: Page, step: string) => page.waitForSelector(`.step[data-step="${step}"]`);

describe.each(screensFor('phone, light'))('a householder, $name', (screen) => {
  test('resets a pump once; when it stops again nothing offers to reset it a second time', async () => {
    const { page, context, complaints } = await here.visit(screen);
    await page.goto(`${here.url}/c/${await openedCase(here.url, plantOf('tank-and-controller'))}`);
    await answerAll(page, {
      ...{ danger: [], household: [], complaint: ['no-water'], onset: 'sudden' },
      ...{ 'recent-work': [], 'pump-open': 'silent', taste: 'none', 'tank-level': 'half' },
      'power-at-pump': 'on',
    });
    const reset = page.locator('a[href*="/work/reset-pump-once/"]:visible');
    await finger.press(page, reset);
    await tick(page, 'All is dry');
    await atStep(page, 'tank-has-water');
    await tick(page, 'There is water');
    await atStep(page, 'let-pump-cool');
    await tick(page);
    await page.locator('.work .wrong').waitFor();
    // too early: its caution was taken up, and is not asked for again
    expect(await page.locator('.caution-first').count()).toBe(0);
    await page.clock.setSystemTime(Date.now() + 31 * 60_000);
    await tick(page);
    await atStep(page, 'reset-once');
    await tick(page, 'It stops again');
    const goOn = page.getByRole('button', { name: 'Write it down and go on' });
    await goOn.waitFor();
    expect(await page.getByRole('button', { name: 'Begin the sheet again' }).count()).toBe(0);
    await armed(page, '.step[aria-busy="false"]');
    await finger.press(page, goOn);
    await page.waitForSelector('.case');
    // what is left may be worth a question
    await answerAll(page, {});
    await page.locator('a[href*="/work/call-technician/"]:visible').waitFor();
    expect(await reset.count()).toBe(0);
    expect(complaints).toEqual([]);
    await context.close();
  });

  test('is told in one place what not to drink while working', async () => {
    const { page, context } = await here.visit(screen);
    await page.goto(`${here.url}/c/${await openedCase(here.url, plantOf('gravity'))}`);
    await answerAll(page, {
      ...{ danger: [], household: ['infant'], complaint: ['look'], onset: 'after-rain' },
      ...{ smell: 'earthy', look: 'brown' },
    });
    await finger.press(page, page.locator('a[href*="/work/clean-roof/"]:visible'));
    await armed(page, '.step[aria-busy="false"]');
    expect(await page.locator('.drink summary').allTextContents()).toEqual([
      'What not to drink now',
    ]);
    // for everybody, and for whom it is worst
    expect(await page.locator('.drink p').count()).toBe(2);
    await context.close();
  });
});
