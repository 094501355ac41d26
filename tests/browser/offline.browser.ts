import { readFileSync } from 'node:fs';
import ICAL from 'ical.js';
import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { readyMade } from '../../shared/plant/ready-made.ts';
import { around } from './around.ts';
import { keptForOffline, offlineScreens, openedCase, phone } from './pages.ts';
import { answerAll, blockedStage, doJob, settled } from './person.ts';

const here = around();

interface Kept {
  readonly base: string | null;
  readonly sent: number;
  readonly answers: readonly { readonly answerId: string; readonly question: string }[];
}

/** The cases this browser keeps, straight from its database. */
const kept = (page: Page): Promise<Kept[]> =>
  page.evaluate(
    () =>
      new Promise<Kept[]>((resolve) => {
        const opening = indexedDB.open('gaugewalk');
        opening.onsuccess = () => {
          const all = opening.result.transaction('cases').objectStore('cases').getAll();
          all.onsuccess = () => resolve(all.result as Kept[]);
        };
      }),
  );

describe.each(offlineScreens)('without a network, $name', (screen) => {
  test('starts, asks, judges and leads through a job with the server stopped; answers arrive later in order, once', async () => {
    const { page, context, complaints } = await here.visit(screen);
    await page.goto(here.url);
    await keptForOffline(page);
    await here.site.stop();
    await context.setOffline(true);

    await page.goto(here.url);
    await page.getByRole('link', { name: 'Something is wrong with my water' }).click();
    await page.getByRole('button', { name: /three filters, UV last/ }).click();
    await page.getByRole('button', { name: 'Start the questions' }).click();
    await answerAll(page, blockedStage);
    await page.waitForSelector('.finding');
    const address = page.url();
    await page.goto(`${address}/work/change-sediment/sediment-2`);
    await doJob(page, ['3.4', '2.6', '2.5']);
    await page.getByRole('button', { name: 'Write it down and go on' }).click();
    await page.waitForSelector('.case');
    const [offline] = await kept(page);
    expect(offline?.base).toBeNull();
    const order = offline?.answers.map(({ answerId }) => answerId);
    expect(order?.length).toBeGreaterThan(10);

    await here.site.start();
    await context.setOffline(false);
    await expect
      .poll(async () => (await kept(page)).map(({ base, sent }) => (base === null ? 0 : sent)), {
        timeout: 60_000,
        interval: 500,
      })
      .toEqual([order?.length]);
    const [online] = await kept(page);
    const arrived = (await (await fetch(`${here.url}${online?.base}`)).json()) as {
      case: { answers: { answerId: string }[] };
    };
    expect(arrived.case.answers.map(({ answerId }) => answerId)).toEqual(order);
    expect(
      complaints.filter((text) => !/ERR_INTERNET_DISCONNECTED|ERR_CONNECTION_REFUSED/.test(text)),
    ).toEqual([]);
    await context.close();
  });
});

test('a link opened again keeps what was answered here and has not arrived yet', async () => {
  const { page, context } = await here.visit(phone);
  const [{ plant }] = readyMade as [(typeof readyMade)[number]];
  const id = await openedCase(here.url, plant);
  await page.goto(`${here.url}/c/${id}`);
  await keptForOffline(page);
  await context.setOffline(true);
  await answerAll(page, blockedStage, undefined, 3);
  const mine = (await kept(page))[0]?.answers.map(({ answerId }) => answerId);
  expect(mine).toHaveLength(3);
  await page.goto(`${here.url}/c/${id}`);
  await settled(page);
  expect((await kept(page))[0]?.answers).toHaveLength(3);
  await context.setOffline(false);
  await page.goto(`${here.url}/c/${id}`);
  await expect
    .poll(
      async () => {
        const { case: now } = await (await fetch(`${here.url}/api/cases/${id}`)).json();
        return now.answers.map(({ answerId }: { answerId: string }) => answerId);
      },
      { timeout: 30_000, interval: 500 },
    )
    .toEqual(mine);
  await context.close();
});

test('the dates are saved for a calendar without a network, as the command line writes them', async () => {
  const { page, context } = await here.visit(phone);
  await page.goto(`${here.url}/demo`);
  await keptForOffline(page);
  await context.setOffline(true);
  await page.goto(`${here.url}/case/demo/dates`);
  const coming = page.waitForEvent('download');
  await page.getByRole('button', { name: /calendar/ }).click();
  const download = await coming;
  expect(download.suggestedFilename()).toBe('Fernhollow guesthouse.ics');
  const calendar = new ICAL.Component(ICAL.parse(readFileSync(await download.path(), 'utf8')));
  const shown = await page.locator('.due li').count();
  // RFC 5545, read by another library than the one that wrote it
  expect(calendar.getAllSubcomponents('vevent')).toHaveLength(shown);
  await context.close();
});
