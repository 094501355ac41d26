import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { around } from './around.ts';
import type { Hands } from './hands.ts';
import { desk, handsAt, looking, phone, screensFor } from './pages.ts';
import { answerAll, answerOne, blockedStage, doJob, settled } from './person.ts';
import { agent } from './site.ts';

const here = around();

/** Signs in and opens a case for a caller with three filters and a lamp; its first question is on the screen. */
async function takeCall(page: Page, hands: Hands): Promise<void> {
  await page.goto(`${here.url}/desk`);
  await hands.type(page, page.getByLabel('E-mail'), agent.email);
  await hands.type(page, page.getByLabel('Password'), agent.password);
  await page.keyboard.press('Enter');
  await hands.press(page, page.getByRole('link', { name: 'New call' }));
  await hands.press(page, page.getByRole('button', { name: /three filters, UV last/ }));
  await settled(page);
}

const none = (page: Page, hands: Hands) => hands.press(page, page.locator('.answers button.main'));

describe.each(screensFor('desk, dark'))('an agent, $name', (screen) => {
  const hands = handsAt(screen);
  test(`takes a call, hands it to a phone, watches it arrive, and takes it to its end, ${hands.name}`, async () => {
    const { page, context, complaints } = await here.visit(screen);
    await takeCall(page, hands);
    // read aloud, then what to listen for; every answer has its key
    expect(await page.locator('.asking .aloud').first().textContent()).toMatch(/^".*"$/);
    expect(await page.locator('.question').getAttribute('data-question')).toBe('danger');
    await none(page, hands);
    await page.waitForSelector('[data-question="household"]');
    await settled(page);
    await page.keyboard.press('0');
    await page.waitForSelector('[data-question="complaint"]');
    // before anybody said what is wrong, frequencies alone would decide
    expect(await page.locator('.decided .decision').count()).toBe(0);
    await settled(page);
    await page.keyboard.press('1');
    expect(await page.locator('.choice.chosen').count()).toBe(1);
    const keys = await page.locator('.answers .choices .number').allTextContents();
    expect(keys).toEqual([...'123456789abcd']);
    await page.keyboard.press('d');
    expect(await page.locator('.choices .choice').last().getAttribute('aria-pressed')).toBe('true');
    await page.keyboard.press('d');
    await none(page, hands);
    await page.waitForSelector('[data-question="onset"]');
    expect(await page.locator('.decided .decision').textContent()).toMatch(/Priority/);

    await hands.press(page, page.getByRole('link', { name: 'Hand over to a phone' }).first());
    await hands.press(page, page.getByRole('button', { name: 'Make a link' }));
    const address = await page.locator('.address').textContent();
    expect(address).toMatch(/\/c\/[\w-]{20,}$/);
    await page.locator('.qr').waitFor();

    const other = await here.visit(phone);
    await other.page.goto(address ?? '');
    await other.page.waitForSelector('[data-question="onset"][aria-busy="false"]');
    await answerOne(other.page, 'onset', blockedStage.onset);
    // it arrives at the desk as it happens
    await page.getByText('Slowly, over weeks').waitFor({ timeout: 10_000 });

    // the link is listed with what it lets one do, and once withdrawn it opens nothing
    const mine = page.locator('.links li').filter({ hasText: 'Goes on with the case' }).last();
    await hands.press(page, mine.getByRole('button', { name: 'Withdraw it' }));
    await hands.press(page, page.getByRole('button', { name: 'Withdraw it for good' }));
    await other.page.getByText('This case can be read, but not answered any more.').waitFor();
    expect((await fetch((address ?? '').replace('/c/', '/api/cases/'))).status).toBe(410);

    await hands.press(page, page.getByRole('link', { name: 'Back to the case' }));
    await answerAll(page, blockedStage, hands);
    await page.waitForSelector('.finding');
    // the answer that had the focus is gone; it goes on where one reads on
    await page.waitForFunction(
      () => document.activeElement?.textContent === 'What was found',
      undefined,
      looking,
    );
    expect(await page.locator('.decided .decision').textContent()).toMatch(/phone|Send/);
    await hands.press(page, page.locator('a[href*="/work/change-sediment/"]:visible').first());
    const steps = await doJob(page, ['3.4', '2.6', '2.5'], hands);
    expect(steps).toContain('loosen-housing');
    expect(await page.locator('.step').textContent()).toMatch(/It worked|It is better/);
    await hands.press(page, page.getByRole('button', { name: 'Write it down and go on' }));
    await page.waitForSelector('.case');

    await hands.type(page, page.getByLabel('New note'), 'Called from the mill');
    await hands.press(page, page.getByRole('button', { name: 'Write it down', exact: true }));
    await page.getByText('Called from the mill').waitFor();
    await hands.press(page, page.getByRole('button', { name: 'settled on the phone' }));
    await page.getByLabel('State').selectOption('closed');
    await page
      .getByText(/closed; /)
      .first()
      .waitFor();
    // the phone is told that its link was withdrawn
    const expected = /410|403/;
    expect([...complaints, ...other.complaints.filter((text) => !expected.test(text))]).toEqual([]);
    await other.context.close();
    await context.close();
  });
});

test('an agent whose network goes asks on, and what was answered reaches the desk afterwards', async () => {
  const { page, context, complaints } = await here.visit(desk);
  await takeCall(page, handsAt(desk));
  await context.setOffline(true);
  await answerAll(page, blockedStage, handsAt(desk), 4);
  await settled(page);
  expect(await page.locator('.decided .decision').textContent()).toMatch(/Priority/);
  const waiting = page
    .getByRole('status')
    .getByText('It goes to the server when there is a network');
  await waiting.waitFor();
  await context.setOffline(false);
  await expect
    .poll(
      async () =>
        page.evaluate(async () => {
          const { cases } = await (await fetch('/api/desk/cases?limit=50')).json();
          return Math.max(...cases.map((one: { answers: number }) => one.answers));
        }),
      { timeout: 60_000, interval: 1000 },
    )
    .toBeGreaterThanOrEqual(4);
  await waiting.waitFor({ state: 'detached' });
  expect(complaints.filter((text) => !/ERR_INTERNET_DISCONNECTED/.test(text))).toEqual([]);
  await context.close();
});
