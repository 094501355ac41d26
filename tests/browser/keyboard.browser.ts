import { expect, test } from 'vitest';
import { around } from './around.ts';
import { keys } from './hands.ts';
import { desk, phone } from './pages.ts';
import { settled } from './person.ts';

// Whole jobs by keyboard alone stand with each of the three users; here what the keys meet on the way.
const here = around();

test.each([phone, desk])(
  'a new question has the focus, and the parts of the drawing are reached by Tab, $name',
  async (screen) => {
    const { page, context, complaints } = await here.visit(screen);
    await page.goto(`${here.url}/demo`);
    await settled(page);
    await keys.press(page, page.locator('.answers .choices .choice').first());
    await page.waitForSelector('.question:not([data-question="smell"])');
    await settled(page);
    expect(await page.evaluate(() => document.activeElement?.tagName)).toBe('H2');

    if (screen === phone) await keys.press(page, page.locator('.views button').nth(1));
    await keys.press(page, page.locator('.plant-line [role=button]').nth(6));
    await page.waitForSelector('.part-panel');
    expect(complaints).toEqual([]);
    await context.close();
  },
);
