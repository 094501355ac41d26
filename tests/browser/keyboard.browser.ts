import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { around } from './around.ts';
import { screens } from './pages.ts';
import { settled } from './person.ts';

const here = around();

/** Moves with Tab alone until what has the focus fits, then presses Enter. Fails when it is never reached. */
async function tabTo(page: Page, fits: string, key = 'Enter'): Promise<void> {
  for (let i = 0; i < 80; i++) {
    await page.keyboard.press('Tab');
    const reached = await page.evaluate((selector) => {
      const here = document.activeElement;
      if (!here?.matches(selector)) return false;
      const style = getComputedStyle(here);
      // whoever sees the screen must see where they are
      return style.outlineStyle !== 'none' || here.closest('svg') !== null || 'unseen';
    }, fits);
    expect(reached).not.toBe('unseen');
    if (reached === true) return page.keyboard.press(key);
  }
  throw new Error(`Tab never reached ${fits}`);
}

describe.each(screens.filter(({ colorScheme }) => colorScheme === 'light'))(
  'by keyboard alone, $name',
  (screen) => {
    test('from the start page through setting up, questions and a step of work', async () => {
      const { page, context, complaints } = await here.visit(screen);
      await page.goto(here.url);
      await tabTo(page, 'a[href="/plant"]');
      await tabTo(page, '.plants li:nth-child(5) button');
      await tabTo(page, '.bottom .main');
      await settled(page);
      for (const next of ['household', 'complaint']) {
        await tabTo(page, '.answers .main');
        await page.waitForSelector(`[data-question="${next}"][aria-busy="false"]`);
        // the new question has the focus, so it is read out
        expect(await page.evaluate(() => document.activeElement?.tagName)).toBe('H2');
      }
      await tabTo(page, '.answers .choices .choice', ' ');
      await tabTo(page, '.answers .main');
      await page.waitForSelector('[data-question="onset"][aria-busy="false"]');
      await tabTo(page, '.answers .choices .choice:nth-child(2)');
      await page.waitForFunction(() => document.querySelector('[data-question="onset"]') === null);
      if (screen.width < 500) {
        await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
        await tabTo(page, '.views button:nth-child(2)');
      }
      await tabTo(page, '.plant-line [role=button]:nth-of-type(7)');
      await page.waitForSelector('.part-panel');
      await page.goto(`${here.url}/demo`);
      await settled(page);
      await page.goto(`${here.url}/case/demo/work/change-sediment/sed-2`);
      await page.waitForSelector('[data-step="tell-house"]');
      await tabTo(page, '.tick-button');
      await page.waitForSelector('[data-step="parts-ready"]');
      expect(complaints).toEqual([]);
      await context.close();
    });
  },
);
