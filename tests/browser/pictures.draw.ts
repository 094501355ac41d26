import { mkdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { launch, type Screen, visit } from './pages.ts';
import { settled } from './person.ts';
import { openSite, type Site } from './site.ts';

const folder = join(import.meta.dirname, '../../docs/pictures');
let browser: Browser;
let site: Site;
beforeAll(async () => {
  mkdirSync(folder, { recursive: true });
  [browser, site] = await Promise.all([launch(), openSite()]);
});
afterAll(async () => {
  await browser.close();
  await site.end();
});

const phone = { width: 360, height: 740, colorScheme: 'light' } as const;
const desk = { width: 1280, height: 800, colorScheme: 'light' } as const;

const pictures: readonly {
  readonly name: string;
  readonly screen: Omit<Screen, 'name'>;
  readonly show: (page: Page, url: string) => Promise<unknown>;
}[] = [
  { name: 'desk', screen: desk, show: (page) => settled(page) },
  { name: 'question', screen: phone, show: (page) => settled(page) },
  {
    name: 'line',
    screen: { ...phone, height: 1290 },
    show: async (page) => {
      await page.locator('.views button').nth(1).click();
      await page.locator('.plant-line').waitFor();
    },
  },
  {
    name: 'work',
    screen: phone,
    show: async (page, url) => {
      await page.goto(`${url}/case/demo/work/change-sediment/sed-2`);
      for (const step of ['tell-house', 'parts-ready']) {
        await page.locator(`[data-step="${step}"] .tick-button`).click();
      }
      await page.locator('.caution-first').waitFor();
    },
  },
];

test.each(pictures)('the picture $name', async ({ name, screen, show }) => {
  const { page, context } = await visit(browser, screen);
  await page.goto(`${site.url}/demo`);
  await settled(page);
  await show(page, site.url);
  await page.evaluate(() => document.fonts.ready);
  const path = join(folder, `${name}.png`);
  await page.screenshot({ path });
  expect(statSync(path).size).toBeGreaterThan(10_000);
  await context.close();
});
