import { expect, test } from 'vitest';
import { around } from './around.ts';
import { finger } from './hands.ts';
import { phone } from './pages.ts';
import { doJob } from './person.ts';

const here = around();

test('a step that waits on the screen until its lock may be off again is not shown any longer', async () => {
  const { page, context } = await here.visit(phone);
  await page.goto(`${here.url}/demo`);
  await page.waitForSelector('.case');
  await page.goto(`${here.url}/case/demo/work/change-sediment/-`);
  await page.waitForSelector('.step');
  const step = (): Promise<string | null> => page.locator('.step').getAttribute('data-step');
  for (let i = 0; i < 30 && (await step()) !== 'loosen-housing'; i++)
    await doJob(page, [], finger, 1);
  expect(await step()).toBe('loosen-housing');
  // three hours go by; then somebody looks at the telephone again
  await page.evaluate(() => {
    const Now = Date;
    const later = Now.now() + 3 * 60 * 60 * 1000;
    globalThis.Date = class extends Now {
      constructor(...given: []) {
        if (given.length > 0) super(...given);
        else super(later);
      }
    } as DateConstructor;
    document.dispatchEvent(new Event('visibilitychange', { bubbles: true }));
  });
  await page.locator('.step:not([data-step="loosen-housing"])').waitFor();
  expect(await step()).toBe('lock-pump');
  expect(await page.locator('.work-head').textContent()).toContain('after a long break');
  await context.close();
});
