import { expect, test } from 'vitest';
import { readyMade } from '../../shared/plant/ready-made.ts';
import { around } from './around.ts';
import { sent, signIn } from './at-desk.ts';
import { desk } from './pages.ts';
import { agent } from './site.ts';

const here = around();

test('by keys alone: a part is moved step after step, and what is asked twice is a Tab from its answer', async () => {
  const { page, context, complaints } = await here.visit(desk);
  await signIn(page, here.url, agent);
  const plant = { ...readyMade.find(({ id }) => id === 'two-stages')?.plant, name: 'Keys' };
  const { ref } = (await sent(page, 'POST', '/api/desk/cases', { plant })) as { ref: string };

  await page.goto(`${here.url}/case/${ref}/plant`);
  const order = () => page.locator('.part-row summary').allTextContents();
  const ids = plant.line?.map(({ id }) => id) ?? [];
  const from = ids.indexOf('carbon');
  await page.locator('.part-row').nth(from).locator('.steps button').first().focus();
  const steps = from;
  for (let i = 1; i <= steps; i++) {
    await page.keyboard.press('Enter');
    await expect.poll(async () => (await order())[from - i]).toContain('carbon');
    await expect
      .poll(() => page.evaluate(() => document.activeElement?.getAttribute('aria-label')))
      .toMatch(/carbon/);
  }

  await page.goto(`${here.url}/case/${ref}/hand-over`);
  await page.getByRole('button', { name: 'Withdraw it' }).first().focus();
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Withdraw it for good' }).waitFor();
  const focused = () => page.evaluate(() => document.activeElement?.textContent);
  await page.keyboard.press('Tab');
  expect(await focused()).toBe('Withdraw it for good');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: 'Withdraw it for good' }).waitFor({ state: 'detached' });
  expect(await focused()).toBe('Withdraw it');
  expect(complaints).toEqual([]);
  await context.close();
});
