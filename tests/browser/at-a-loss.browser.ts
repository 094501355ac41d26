import { expect, test } from 'vitest';
import { readyMade } from '../../shared/plant/ready-made.ts';
import { around } from './around.ts';
import { armed, openedCase, phone } from './pages.ts';

const here = around();
const plantOf = (id: string) => readyMade.find((one) => one.id === id)?.plant;

/** On the screen, not scrolled out of it. */
const isSeen = async (box: { y: number; height: number } | null): Promise<boolean> =>
  box !== null && box.y >= 0 && box.y + box.height <= phone.height;

test('a technician finds what is worth most next wherever an entry was kept, and need not know it', async () => {
  const { page, context, complaints } = await here.visit(phone);
  await page.goto(`${here.url}/c/${await openedCase(here.url, plantOf('two-stages'))}`);
  await page.waitForSelector('.case');
  await page.locator('.menu summary').click();
  await page.getByLabel('Technician, many entries at once').click();
  const next = page.getByRole('button', { name: /^Worth most next: / });
  await page.locator('.entry-card').nth(10).waitFor();
  await next.click();
  const last = page.locator('.entry-card', { hasText: 'Who drinks the water' });
  await last.locator('summary').click();
  await last.getByRole('button', { name: 'none of these' }).click();
  await last.locator('summary', { hasText: 'none of these' }).waitFor();
  expect(await isSeen(await next.boundingBox())).toBe(true);

  // danger is asked once more in other words; the complaint just once
  for (const what of ['Danger signs', 'Danger signs', 'What is wrong']) {
    await page.getByRole('button', { name: `Worth most next: ${what}.` }).waitFor();
    await page.locator('.entry-card[open]').getByRole('button', { name: 'I do not know' }).click();
    await page.waitForTimeout(900);
  }
  await page.getByRole('button', { name: /^Worth most next: (?!What is wrong|Danger)/ }).waitFor();

  const times = page.locator('.entry-card', { hasText: 'Run and rest times' });
  await times.locator('summary').click();
  for (const [n, seconds] of ['9', '19'].entries())
    await times.locator('input[type=text]').nth(n).fill(seconds);
  await times.getByRole('button', { name: 'Keep it' }).click();
  await times.getByText('Touch one of these.').waitFor();
  expect(complaints).toEqual([]);
  await context.close();
});

test('a sheet that waits for somebody is begun again where one stands', async () => {
  const { page, context, complaints } = await here.visit(phone);
  const id = await openedCase(here.url, plantOf('two-stages'));
  await page.goto(`${here.url}/c/${id}`);
  await page.waitForSelector('.case');
  const [, key] = /\/case\/([^/?#]+)/.exec(page.url()) ?? [];
  await page.goto(`${here.url}/case/${key}/work/desludge-tank/-`);
  await armed(page, '.step[aria-busy="false"]');
  await page.getByRole('button', { name: 'Nobody yet' }).click();
  const again = page.getByRole('button', { name: 'Begin the sheet again' });
  await again.waitFor();
  await armed(page, '.step[aria-busy="false"]');
  await again.click();
  await page.getByRole('button', { name: 'A technician is here' }).waitFor();
  expect(complaints).toEqual([]);
  await context.close();
});

test('whoever has a case under way finds it before the way to a new one', async () => {
  const { page, context } = await here.visit(phone);
  await page.goto(`${here.url}/c/${await openedCase(here.url, plantOf('two-stages'))}`);
  await page.waitForSelector('.case');
  await page.goto(here.url);
  const top = async (what: string) => (await page.getByText(what).boundingBox())?.y ?? 0;
  await page.getByText('Go on where you stopped').waitFor();
  expect(await top('Go on where you stopped')).toBeLessThan(
    await top('Something is wrong with my water'),
  );
  await context.close();
});
