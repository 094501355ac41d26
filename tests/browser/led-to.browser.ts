import { expect, test } from 'vitest';
import { around } from './around.ts';
import { finger } from './hands.ts';
import { phone } from './pages.ts';
import { answerAll, doJob, settled } from './person.ts';

const here = around();

test('a job that cannot be done on this plant leads to the one that comes first, with a button of its own', async () => {
  const { page, context, complaints } = await here.visit(phone);
  await page.goto(`${here.url}/plant`);
  // nothing on this plant shuts the line before its filter
  await page.getByRole('button', { name: /flow controller with mains back-up/ }).click();
  await page.getByRole('button', { name: 'Start the questions' }).click();
  await answerAll(page, { danger: [], household: [], complaint: ['weak'] }, finger, 3);
  await settled(page);
  const base = page.url();
  // the plan says so before anybody sets out
  await page.getByRole('button', { name: 'What it may be' }).click();
  const change = page.locator('.plan li').filter({ hasText: 'Change the sediment cartridge' });
  await change
    .getByText('On this plant something comes before it: Fit a valve. Who: technician.')
    .waitFor();
  await page.goto(`${base}/work/change-sediment/sediment`);
  expect(await doJob(page, [])).toEqual(['no-valve']);
  expect(await page.locator('.step').textContent()).toContain('waits for whoever is to do it');

  const next = page.getByRole('button', {
    name: 'Write it down. Next: Fit a valve (for a technician)',
  });
  const box = await next.boundingBox();
  expect(box?.height).toBeGreaterThanOrEqual(64);
  await next.click();
  await page.locator('.job-title', { hasText: 'Fit a valve' }).waitFor();
  expect(page.url()).toBe(`${base}/work/fit-valve/sediment`);
  // a householder is not led into a technician's work
  await page.waitForSelector('.step[aria-busy="false"]');
  await page.getByRole('button', { name: 'A technician is here' }).waitFor();

  await page.goto(`${base}/report`);
  await page.getByRole('heading', { name: 'Work and proof' }).waitFor();
  expect(await page.locator('.paper').textContent()).toContain(
    'Change the sediment cartridge (sediment)',
  );
  expect(complaints).toEqual([]);
  await context.close();
});
