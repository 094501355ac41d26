import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { readyMade } from '../../shared/plant/ready-made.ts';
import { around } from './around.ts';
import { sent, signIn } from './at-desk.ts';
import type { Hands } from './hands.ts';
import { desk, handsAt, keptForOffline, offlineScreens, screensFor } from './pages.ts';
import { doJob } from './person.ts';
import { agent, technician } from './site.ts';

const here = around();

/** Several readings on one screen, the gates, the proof, the record; at the example, which is kept in the browser. */
async function wholeJob(page: Page, hands: Hands): Promise<void> {
  await page.goto(`${here.url}/demo`);
  await page.waitForSelector('.case');
  await hands.press(page, page.locator('.menu summary'));
  await hands.press(page, page.getByLabel('Technician, many entries at once'));
  await page.getByRole('heading', { name: 'Entries' }).waitFor();
  await page.locator('.entry-card').nth(10).waitFor();

  const two = page.locator('.entry-card', { hasText: 'Gauges, 2 taps open' });
  await hands.press(page, two.locator('summary'));
  for (const [i, bar] of ['2.6', '0.6', '0.5', '0.5'].entries())
    await hands.type(page, two.locator('input[type=text]').nth(i), bar);
  await hands.press(page, two.getByRole('button', { name: 'Keep it' }));
  await two.locator('summary', { hasText: 'G1 2.6 bar' }).waitFor();
  // what is kept stands in its line, and the one worth most next is a touch away
  expect(await two.getAttribute('open')).toBeNull();
  await hands.press(page, page.getByRole('button', { name: /^Worth most next: / }));

  // on the phone the plan stands under the causes
  const causes = page.locator('.views button').nth(2);
  if (await causes.isVisible()) await hands.press(page, causes);
  await hands.press(page, page.locator('a[href*="/work/change-sediment/"]:visible').first());
  const done = await doJob(page, ['3.4', '2.6', '2.5', '2.5'], hands);
  expect(done).toContain('loosen-housing');
  expect(done.indexOf('try-pump')).toBeLessThan(done.indexOf('loosen-housing'));
  expect(await page.locator('.step').textContent()).toMatch(/It worked|It is better/);
  await hands.press(page, page.getByRole('button', { name: 'Write it down and go on' }));
  await page.waitForSelector('.case');
  await hands.press(page, page.locator('.menu summary'));
  await hands.press(page, page.locator('.menu a[href$="/report"]'));
  await page.getByRole('heading', { name: 'Work and proof' }).waitFor();
  await page.goto(`${here.url}/case/demo/pump-house`);
  await page.getByRole('row', { name: /G1/ }).waitFor();
}

describe.each(screensFor('desk, light'))('a technician, $name', (screen) => {
  const hands = handsAt(screen);
  test(`enters several readings on one screen, goes through the gates, and hands over a record, ${hands.name}`, async () => {
    const { page, context, complaints } = await here.visit(screen);
    await wholeJob(page, hands);
    expect(complaints).toEqual([]);
    await context.close();
  });
});

describe.each(offlineScreens)('a technician in a van, $name', (screen) => {
  test('does the same with the server stopped and no network', async () => {
    const { page, context, complaints } = await here.visit(screen);
    await page.goto(here.url);
    await keptForOffline(page);
    await here.site.stop();
    await context.setOffline(true);
    try {
      await wholeJob(page, handsAt(screen));
    } finally {
      await here.site.start();
    }
    expect(complaints.filter((text) => !/ERR_INTERNET_DISCONNECTED/.test(text))).toEqual([]);
    await context.close();
  });
});

test('a technician at the desk is told that links are for the agents, not that there is no network', async () => {
  const [calls, van] = [await here.visit(desk), await here.visit(desk)];
  await signIn(calls.page, here.url, agent);
  await signIn(van.page, here.url, technician);
  const { id } = (await sent(van.page, 'GET', '/api/desk/me')) as { id: string };
  const opened = { plant: readyMade[4]?.plant, audience: 'technician', language: 'en' };
  const { ref } = (await sent(calls.page, 'POST', '/api/desk/cases', opened)) as { ref: string };
  await sent(calls.page, 'POST', `/api/desk/cases/${ref}/assign`, { to: id });

  await van.page.reload();
  await van.page.locator('.desk .line').first().click();
  await van.page.locator('.case').waitFor();
  await van.page.locator('.menu summary').click();
  await van.page.locator('.menu a[href$="/hand-over"]').click();
  const words = van.page.getByText("handed out and withdrawn by the call desk's agents");
  await words.waitFor();
  await van.page.getByRole('button', { name: 'Make a link' }).click();
  await van.page.getByRole('alert').waitFor();
  expect(await words.count()).toBe(2);
  expect(await van.page.locator('main').textContent()).not.toMatch(/network|does not answer/);
  // the browser itself writes each refusal to its console
  expect(van.complaints.filter((text) => !/403/.test(text))).toEqual([]);
  await calls.context.close();
  await van.context.close();
});
