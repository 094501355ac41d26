import { expect, test } from 'vitest';
import { around } from './around.ts';
import { phone } from './pages.ts';
import { answerAll, blockedStage, doJob, settled } from './person.ts';

const here = around();

test('a job on two stages is done on one after the other, each with a sheet and a proof of its own', async () => {
  const { page, context, complaints } = await here.visit(phone);
  await page.goto(`${here.url}/plant`);
  await page.getByRole('button', { name: /three filters, UV last/ }).click();
  await page.getByRole('button', { name: 'Start the questions' }).click();
  await settled(page);
  await answerAll(page, blockedStage);
  await page.waitForSelector('.finding');
  await page.locator('a[href*="/work/change-sediment/"]:visible').click();
  await page.waitForSelector('.step');
  expect(page.url()).toMatch(/\/change-sediment\/sediment-1\+sediment-2$/);
  expect(await page.locator('.job-title').textContent()).toContain('sediment-1');

  // the first was not it: the pressure lost between the gauges is what it was
  const first = await doJob(page, ['2.7', '0.9', '0.8']);
  expect(await page.locator('.step').textContent()).toContain('Nothing has changed');
  const next = page.getByRole('button', { name: 'Write it down. Next: sediment-2' });
  const box = await next.boundingBox();
  expect(box?.height).toBeGreaterThanOrEqual(64);
  await next.click();

  await page.locator('.job-title', { hasText: 'sediment-2' }).waitFor();
  expect(page.url()).toMatch(/\/change-sediment\/sediment-2$/);
  const second = await doJob(page, ['3.4', '2.6', '2.5']);
  expect(second).toEqual(first);
  expect(await page.locator('.step').textContent()).toMatch(/It worked|It is better/);
  await page.getByRole('button', { name: 'Write it down and go on' }).click();
  await page.waitForSelector('.case');
  await page.locator('.menu summary').click();
  await page.locator('.menu a[href$="/report"]').click();
  const record = page.locator('.paper');
  await page.getByRole('heading', { name: 'Work and proof' }).waitFor();
  expect(await record.textContent()).toMatch(/sediment-1[\s\S]*Nothing has changed/);
  expect(await record.textContent()).toMatch(/sediment-2[\s\S]*(It worked|It is better)/);
  expect(complaints).toEqual([]);
  await context.close();
});
