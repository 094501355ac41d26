import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { launch, screens, visit } from './pages.ts';
import { doJob } from './person.ts';
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

describe.each(screens)('a technician, $name', (screen) => {
  test('enters several readings on one screen, goes through the gates, and hands over a record', async () => {
    const { page, context, complaints } = await visit(browser, screen);
    await page.goto(`${site.url}/demo`);
    await page.waitForSelector('.case');
    await page.locator('.menu summary').click();
    await page.getByLabel('Technician, many entries at once').check();
    await page.getByRole('heading', { name: 'Entries' }).waitFor();
    const entries = page.locator('.entry-card');
    await entries.nth(10).waitFor();

    const two = page.locator('.entry-card', { hasText: 'Gauges, 2 taps open' });
    await two.locator('summary').click();
    for (const [i, bar] of ['2.6', '0.6', '0.5', '0.5'].entries()) {
      await two.locator('input[type=text]').nth(i).fill(bar);
    }
    await two.getByRole('button', { name: 'Keep it' }).click();
    await two.locator('summary', { hasText: 'G1 2.6 bar' }).waitFor();

    await page.goto(`${site.url}/case/demo/work/change-sediment/sed-2`);
    const done = await doJob(page, ['3.4', '2.6', '2.5', '2.5']);
    expect(done).toContain('loosen-housing');
    expect(done.indexOf('try-pump')).toBeLessThan(done.indexOf('loosen-housing'));
    expect(await page.locator('.step').textContent()).toMatch(/It worked|It is better/);
    await page.getByRole('button', { name: 'Write it down and go on' }).click();
    await page.waitForSelector('.case');
    await page.goto(`${site.url}/case/demo/report`);
    await page.getByRole('heading', { name: 'Work and proof' }).waitFor();
    await page.goto(`${site.url}/case/demo/pump-house`);
    await page.getByRole('row', { name: /G1/ }).waitFor();
    expect(complaints).toEqual([]);
    await context.close();
  });
});
