import type { Page, Route } from 'playwright-core';
import { expect, test } from 'vitest';
import { readyMade } from '../../shared/plant/ready-made.ts';
import { around } from './around.ts';
import { armed, openedCase, phone } from './pages.ts';
import { answerAll, answerOne, blockedStage, settled } from './person.ts';

const here = around();

/** A case opened by its link, on a server whose rules do not know one of the questions or its answer. */
async function withoutQuestion(
  question: string,
): Promise<{ page: Page; sent(): Promise<string[]> }> {
  // the service worker would answer in place of what is told to refuse
  const { page } = await here.visit(phone, { serviceWorkers: 'block' });
  await page.route('**/answers', async (route: Route) => {
    const body = route.request().postDataJSON() as { question: string };
    if (body.question !== question) return route.continue();
    const detail = `value: not an answer to "${question}"`;
    await route.fulfill({ status: 422, contentType: 'application/problem+json', json: { detail } });
  });
  const plant = readyMade.find(({ id }) => id === 'two-stages')?.plant;
  const id = await openedCase(here.url, plant);
  await page.goto(`${here.url}/c/${id}`);
  return {
    page,
    async sent() {
      const { case: now } = await (await fetch(`${here.url}/api/cases/${id}`)).json();
      return now.answers.map((answer: { question: string }) => answer.question);
    },
  };
}

test('an answer the server refuses is told on the screen, and those after it arrive', async () => {
  const { page, sent } = await withoutQuestion('onset');
  const asked = await answerAll(page, blockedStage, undefined, 6);
  expect(asked).toContain('onset');
  expect(asked.at(-1)).not.toBe('onset');
  await expect
    .poll(sent, { timeout: 20_000, interval: 250 })
    .toEqual(asked.filter((question) => question !== 'onset'));
  const told = page.locator('.case-head .wrong');
  expect(await told.allTextContents()).toEqual([
    expect.stringMatching(/server cannot take this answer: .+: .+ counts on this device only/),
  ]);
  await page.reload();
  await settled(page);
  expect(await told.count()).toBe(1);
  await page.context().close();
});

test('a danger sign the server refuses still stops the case here', async () => {
  const { page } = await withoutQuestion('danger');
  await answerAll(page, { danger: ['shock'] }, undefined, 1);
  const told = await page.waitForSelector('.case-head .wrong');
  await expect.poll(async () => ((await told.boundingBox())?.y ?? -1) >= 0).toBe(true);
  expect(await page.locator('.stop-sign').count()).toBe(1);
  await page.context().close();
});

test('a plant the server refuses is told on the screen, and the case goes on here', async () => {
  const { page, context } = await here.visit(phone, { serviceWorkers: 'block' });
  const detail = 'plant.line[1].kind: not a kind of part';
  await page.route('**/api/cases', (route: Route) =>
    route.fulfill({ status: 422, contentType: 'application/problem+json', json: { detail } }),
  );
  await page.goto(`${here.url}/plant`);
  await page.locator('.choice.plant').first().click();
  await page.getByRole('button', { name: 'Start the questions' }).click();
  await settled(page);
  await answerOne(page, 'danger', []);
  await page.locator('.case-head .wrong', { hasText: 'Kept here only.' }).waitFor();
  await page.locator('[data-question="danger"]').waitFor({ state: 'detached' });
  await context.close();
});

test('a step of a job the server refuses is told, and those after it arrive', async () => {
  const { page, context } = await here.visit(phone, { serviceWorkers: 'block' });
  const arrived: string[] = [];
  await page.route('**/work', async (route: Route) => {
    const { event } = route.request().postDataJSON() as { event: { step: string } };
    if (event.step === 'tell-house') {
      const detail = 'event: not a step';
      await route.fulfill({
        status: 422,
        contentType: 'application/problem+json',
        json: { detail },
      });
      return;
    }
    arrived.push(event.step);
    await route.continue();
  });
  const plant = readyMade.find(({ id }) => id === 'two-stages')?.plant;
  await page.goto(`${here.url}/c/${await openedCase(here.url, plant)}`);
  await settled(page);
  await page.goto(`${page.url().replace('/c/', '/case/')}/work/test-pressure-hold/-`);
  for (const step of ['all-taps-shut', 'tell-house', 'lock-pump']) {
    await armed(page, `.step[data-step="${step}"][aria-busy="false"]`);
    if (step === 'lock-pump') await page.locator('.caution-first .tick-button').click();
    await armed(page, '.step[aria-busy="false"]:not(.caution-first)');
    await page.locator('.ticks .tick-button').click();
  }
  await page.locator('.work .wrong', { hasText: 'cannot take a step of this job' }).waitFor();
  await expect.poll(() => arrived).toEqual(['all-taps-shut', 'lock-pump']);
  await page.reload();
  await page.locator('.step[data-step="hold-read"]').waitFor();
  expect(await page.locator('.work .wrong').count()).toBe(1);
  await context.close();
});

test('an address that cannot be decoded opens the screen for a case that is not there', async () => {
  const { page, context } = await here.visit(phone);
  await page.goto(`${here.url}/case/100%`);
  expect(await page.locator('h1').textContent()).toBe('There is no such case here');
  await context.close();
});
