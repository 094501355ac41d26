import { mkdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { beforeAll, expect, test } from 'vitest';
import { around } from './around.ts';
import { desk, phone, type Screen } from './pages.ts';
import { settled } from './person.ts';

const folder = join(import.meta.dirname, '../../docs/pictures');
const here = around();
beforeAll(() => {
  mkdirSync(folder, { recursive: true });
});

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
  const { page, context } = await here.visit(screen);
  await page.goto(`${here.url}/demo`);
  await settled(page);
  await show(page, here.url);
  await page.evaluate(() => document.fonts.ready);
  const path = join(folder, `${name}.png`);
  await page.screenshot({ path });
  expect(statSync(path).size).toBeGreaterThan(10_000);
  await context.close();
});
