import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { launch, screens, visit } from './pages.ts';
import { answerAll, blockedStage, doJob } from './person.ts';
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

describe.each(screens)('a householder, $name', (screen) => {
  test('sets the plant up by its picture, finds the stage, works, proves it, and prints', async () => {
    const { page, context, complaints } = await visit(browser, screen);
    await page.goto(site.url);
    await page.getByRole('link', { name: 'Something is wrong with my water' }).click();
    await page.getByRole('button', { name: /three filters, UV last/ }).click();
    await page.getByLabel('What do you call it?').fill('Mill cottage');
    await page.getByRole('button', { name: 'Start the questions' }).click();

    const asked = await answerAll(page, blockedStage);
    expect(asked.slice(0, 3)).toEqual(['danger', 'household', 'complaint']);
    expect(new Set(asked).size).toBe(asked.length);
    await page.waitForSelector('.finding');
    expect(await page.locator('.finding .leading').textContent()).toMatch(
      /blocked sediment cartridge \((over 9|9|8) in 10\)/,
    );

    await page.goto(`${page.url()}/work/change-sediment/sediment-2`);
    const steps = await doJob(page, ['3.4', '2.6', '2.5']);
    // the rule set gives a household no sheet without a second sign of no pressure: this plant has gauges
    expect(steps.indexOf('loosen-housing')).toBeGreaterThan(steps.indexOf('lock-pump'));
    await page.getByRole('button', { name: 'Write it down and go on' }).click();
    await page.waitForSelector('.case');

    await page.goto(`${page.url()}/report`);
    await page.getByRole('heading', { name: 'Work and proof' }).waitFor();
    expect(await page.locator('.paper').textContent()).toContain('Mill cottage');
    expect(complaints).toEqual([]);
    await context.close();
  });
});
