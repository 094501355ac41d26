import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { launch, screens, visit } from './pages.ts';
import { answerOne, blockedStage, settled } from './person.ts';
import { agent, openSite, type Site } from './site.ts';

let browser: Browser;
let site: Site;
beforeAll(async () => {
  [browser, site] = await Promise.all([launch(), openSite()]);
});
afterAll(async () => {
  await browser.close();
  await site.end();
});

describe.each(screens)('an agent, $name', (screen) => {
  test('takes a call by keyboard, hands it to a phone, and watches it arrive', async () => {
    const { page, context, complaints } = await visit(browser, screen);
    await page.goto(`${site.url}/desk`);
    await page.getByLabel('E-mail').fill(agent.email);
    await page.getByLabel('Password').fill(agent.password);
    await page.keyboard.press('Enter');
    await page.getByRole('link', { name: 'New call' }).click();
    await page.getByRole('button', { name: /three filters, UV last/ }).focus();
    await page.keyboard.press('Enter');

    // read aloud, then what to listen for; numbers choose
    await settled(page);
    expect(await page.locator('.asking .aloud').first().textContent()).toMatch(/^".*"$/);
    expect(await page.locator('.question').getAttribute('data-question')).toBe('danger');
    await page.locator('.answers button.main').focus();
    await page.keyboard.press('Enter');
    await page.waitForSelector('[data-question="household"]');
    await settled(page);
    await page.locator('.answers button.main').focus();
    await page.keyboard.press('Enter');
    await page.waitForSelector('[data-question="complaint"]');
    await settled(page);
    await page.keyboard.press('1');
    expect(await page.locator('.choice.chosen').count()).toBe(1);
    await page.locator('.answers button.main').focus();
    await page.keyboard.press('Enter');
    await page.waitForSelector('[data-question="onset"]');
    expect(await page.locator('.agent-panel .decision').textContent()).toMatch(/Priority/);

    await page.getByRole('link', { name: 'Hand over to a phone' }).first().click();
    await page.getByRole('button', { name: 'Make a link' }).click();
    const address = await page.locator('.address').textContent();
    expect(address).toMatch(/\/c\/[\w-]{20,}$/);
    await page.locator('.qr').waitFor();

    const phone = await visit(browser, { width: 360, height: 740, colorScheme: 'light' });
    await phone.page.goto(address ?? '');
    await phone.page.waitForSelector('[data-question="onset"][aria-busy="false"]');
    await answerOne(phone.page, 'onset', blockedStage.onset);
    // it arrives at the desk as it happens
    await page.getByText('Slowly, over weeks').waitFor({ timeout: 10_000 });

    await page.getByRole('link', { name: 'Back to the case' }).click();
    await settled(page);
    await page.getByLabel('New note').fill('Called from the mill');
    await page.getByRole('button', { name: 'Write it down' }).click();
    await page.getByText('Called from the mill').waitFor();
    await page.getByRole('button', { name: 'settled on the phone' }).click();
    await page.getByLabel('State').selectOption('closed');
    await page
      .getByText(/closed; /)
      .first()
      .waitFor();
    expect([...complaints, ...phone.complaints]).toEqual([]);
    await phone.context.close();
    await context.close();
  });
});
