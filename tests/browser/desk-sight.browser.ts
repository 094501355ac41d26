import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { readyMade } from '../../shared/plant/ready-made.ts';
import { around } from './around.ts';
import { sent, signIn } from './at-desk.ts';
import { keys } from './hands.ts';
import { desk } from './pages.ts';
import { answerAll, answerOne, blockedStage, settled } from './person.ts';
import { agent } from './site.ts';

const here = around();

/** A case at the desk with a ready-made plant, its first question on the screen. */
async function called(page: Page, id: string): Promise<void> {
  await signIn(page, here.url, agent);
  const plant = { ...readyMade.find((one) => one.id === id)?.plant, name: 'A caller' };
  const { ref } = (await sent(page, 'POST', '/api/desk/cases', { plant })) as { ref: string };
  await page.goto(`${here.url}/case/${ref}`);
  await settled(page);
}

/** Whether all of it lies on the screen without scrolling. */
const inSight = (page: Page, selector: string): Promise<boolean> =>
  page.locator(selector).evaluate((it) => {
    const { top, bottom } = it.getBoundingClientRect();
    return scrollY === 0 && top >= 0 && bottom <= innerHeight;
  });

const overlap = (page: Page, one: string, other: string): Promise<boolean> =>
  page.evaluate(
    (selectors) => {
      const [a, b] = selectors.map((it) => document.querySelector(it)?.getBoundingClientRect());
      return (
        !a || !b || (a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom)
      );
    },
    [one, other],
  );

test('decision and plan are in sight together while questions are asked, and at the end', async () => {
  const { page, context, complaints } = await here.visit(desk);
  await called(page, 'three-stages-uv-last');
  await answerAll(page, blockedStage, keys, 4);
  await settled(page);
  expect(await page.locator('.question').count()).toBe(1);
  for (const part of ['.decided', '.verdict .plan']) {
    await page.locator(part).waitFor();
    expect(await inSight(page, part)).toBe(true);
  }
  expect(await page.locator('.verdict .plan details[open]').count()).toBe(0);
  expect(await overlap(page, '.decided', '.verdict .plan')).toBe(false);
  // the picture and the ranking stand on their side still
  expect(await overlap(page, '.column.ask', '.line-column')).toBe(false);
  expect(await page.locator('.causes .ranking').count()).toBe(1);

  await answerAll(page, blockedStage, keys);
  await page.locator('.finding').waitFor();
  await page.evaluate(() => scrollTo(0, 0));
  for (const part of ['.decided', '.verdict .plan']) expect(await inSight(page, part)).toBe(true);
  // what is to be done first is told in full
  expect(await page.locator('.verdict .plan details[open]').count()).toBe(1);
  expect(await page.locator('.verdict .plan li').first().textContent()).toContain('Start this job');
  expect(complaints).toEqual([]);
  await context.close();
});

test('after a danger sign the desk says whom to call and what the agent does next', async () => {
  const { page, context, complaints } = await here.visit(desk);
  await called(page, 'one-stage');
  await answerOne(page, 'danger', ['shock', 'burst']);
  await page.locator('.stop-sign').waitFor();
  const decided = page.locator('.decided');
  await decided.getByText('Call: an electrician; the emergency line first').waitFor();
  await decided.getByText('Call: a plumber').waitFor();
  const next = await decided.locator('ol li').allTextContents();
  expect(next.length).toBeGreaterThan(3);
  expect(next.join(' ')).toMatch(/aloud.*makes the call.*call-back.*nobody.*referred to others/i);
  expect(await inSight(page, '.decided')).toBe(true);
  // the line to read aloud stands once
  expect(await page.getByText('touch nothing metal or wet').count()).toBe(1);
  expect(complaints).toEqual([]);
  await context.close();
});

test('where a technician must come before the caller can begin, the telephone alone is not said to be enough', async () => {
  const { page, context, complaints } = await here.visit(desk);
  await called(page, 'controller-two-stages-uv');
  await answerAll(page, {
    danger: [],
    household: ['dialysis'],
    complaint: ['weak'],
    onset: 'gradual',
  });
  await page.locator('.finding').waitFor();
  const decision = page.locator('.decided');
  await decision
    .getByText(/cannot be begun on this plant yet/)
    .first()
    .waitFor();
  await decision.getByText(/^Send a technician first/).waitFor();
  expect(await decision.textContent()).not.toContain('can be settled on the telephone');
  expect(await decision.textContent()).toContain('Load on the van');
  // and what puts it before others
  expect(await decision.textContent()).toMatch(/Urgent because of this: .*dialysis/);
  expect(complaints).toEqual([]);
  await context.close();
});
