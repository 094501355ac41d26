import { mkdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { beforeAll, expect, test } from 'vitest';
import { around } from './around.ts';
import { armed, desk, phone, type Screen, screens } from './pages.ts';
import { settled } from './person.ts';
import { places, walk } from './places.ts';

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
        await page.locator(`[data-step="${step}"][aria-busy="false"] .tick-button`).click();
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
  await armed(page);
  await page.evaluate(() => document.fonts.ready);
  const path = join(folder, `${name}.png`);
  await page.screenshot({ path });
  expect(statSync(path).size).toBeGreaterThan(10_000);
  await context.close();
});

/** Every screen at both sizes, light and dark, into a folder, for whoever wants to look at them all. */
const all = process.env.GAUGEWALK_SCREENS;
test.runIf(all).each(screens)(
  'every screen, $name',
  async (screen) => {
    const { page, context } = await here.visit(screen);
    const goTo = walk(page, here.url);
    for (const [i, place] of places.entries()) {
      await goTo(place);
      await page.evaluate(() => document.fonts.ready);
      const file = `${screen.name}-${String(i).padStart(2, '0')}-${place.name}.png`;
      const path = join(all ?? '', file.replaceAll(/[^\w.]+/g, '-'));
      await page.screenshot({ path, fullPage: true });
    }
    await context.close();
  },
  600_000,
);
