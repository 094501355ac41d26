import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { keptForOffline, launch, phone, visitWith } from './pages.ts';
import { answerAll, blockedStage } from './person.ts';
import { openSite, type Site } from './site.ts';

const built = join(import.meta.dirname, '../../dist/web');
const folder = mkdtempSync(join(tmpdir(), 'gaugewalk-old-tab-'));

/** Puts a newer client in the folder: the same, but for every script's name and the version. */
function renew(): void {
  const { version } = JSON.parse(readFileSync(join(built, 'offline.json'), 'utf8'));
  const names = readdirSync(join(built, 'assets')).filter((name) => name.endsWith('.js'));
  const newer = (text: string): string =>
    names
      .reduce((all, name) => all.replaceAll(name, name.replace('.js', '-newer.js')), text)
      .replaceAll(version, version.split('').reverse().join(''));
  rmSync(folder, { recursive: true });
  cpSync(built, folder, { recursive: true, filter: (file) => !/\.(br|gz)$/.test(file) });
  for (const file of readdirSync(folder, { recursive: true, encoding: 'utf8' })) {
    if (!/\.(js|html|json)$/.test(file)) continue;
    const text = newer(readFileSync(join(folder, file), 'utf8'));
    rmSync(join(folder, file));
    writeFileSync(join(folder, newer(file)), text);
  }
}

const script = (page: Page): Promise<string | null> =>
  page.locator('script[type=module]').first().getAttribute('src');

let browser: Browser;
let site: Site;
beforeAll(async () => {
  cpSync(built, folder, { recursive: true });
  [browser, site] = await Promise.all([launch(), openSite(folder)]);
});
afterAll(async () => {
  await browser.close();
  await site.end();
  rmSync(folder, { recursive: true });
});

test('an old tab goes on against a newer server with the files it knows; the newer client comes once it is closed', async () => {
  const { page, context, complaints } = await visitWith(browser, phone);
  await page.goto(site.url);
  await keptForOffline(page);
  const old = await script(page);
  await page.getByRole('link', { name: 'Something is wrong with my water' }).click();
  await page.getByRole('button', { name: /three filters, UV last/ }).click();
  await page.getByRole('button', { name: 'Start the questions' }).click();
  await answerAll(page, blockedStage, undefined, 3);

  await site.stop();
  renew();
  await site.start();
  await page.evaluate(async () => (await navigator.serviceWorker.ready).update());
  await expect
    .poll(
      () =>
        page.evaluate(async () =>
          Boolean((await navigator.serviceWorker.getRegistration())?.waiting),
        ),
      { timeout: 30_000 },
    )
    .toBe(true);
  expect((await fetch(`${site.url}${old}`)).status).toBe(404);
  await answerAll(page, blockedStage);
  await page.waitForSelector('.finding');
  // a screen whose script was not loaded before, then the whole tab anew
  await page.goto(`${page.url()}/work/change-sediment/sediment-2`);
  await page.waitForSelector('.caution, .step');
  expect(await script(page)).toBe(old);
  expect(complaints.filter((text) => !/ERR_CONNECTION_REFUSED/.test(text))).toEqual([]);

  await page.close();
  const next = await context.newPage();
  await expect
    .poll(
      async () => {
        await next.goto('about:blank');
        await next.goto(site.url);
        return script(next);
      },
      { timeout: 30_000, interval: 500 },
    )
    .toMatch(/-newer\.js$/);
  await context.close();
});

test('a screen whose file cannot be fetched says so, and comes when the page is loaded again', async () => {
  const context = await browser.newContext({ ...phone, serviceWorkers: 'block' });
  const page = await context.newPage();
  await page.goto(site.url);
  await page.getByRole('link', { name: 'Something is wrong with my water' }).waitFor();
  await page.route('**/assets/**', (route) => route.abort());
  await page.getByRole('link', { name: 'Something is wrong with my water' }).click();
  await page.getByRole('heading', { name: 'This screen could not be fetched' }).waitFor();
  await page.unroute('**/assets/**');
  await page.getByRole('button', { name: 'Load the page again' }).click();
  await page.getByRole('button', { name: /three filters, UV last/ }).waitFor();
  await context.close();
});
