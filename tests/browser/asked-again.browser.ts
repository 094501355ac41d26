import { expect, test } from 'vitest';
import { readyMade } from '../../shared/plant/ready-made.ts';
import { around } from './around.ts';
import { finger } from './hands.ts';
import { openedCase, phone } from './pages.ts';
import { settled } from './person.ts';

const here = around();
const plant = readyMade.find(({ id }) => id === 'one-stage')?.plant;

test('danger not known is asked once more in other words, with nothing ticked, and can be answered', async () => {
  const { page } = await here.visit(phone);
  await page.goto(`${here.url}/c/${await openedCase(here.url, plant)}`);
  await settled(page);
  await finger.press(page, page.locator('.answers .choices .choice').first());
  await finger.press(page, page.locator('.other-answers .choice').first());
  await page.getByText('Just to be sure').waitFor();
  await settled(page);
  expect(await page.locator('.answers [aria-checked="true"], .answers :checked').count()).toBe(0);
  await finger.press(page, page.locator('.answers > .main'));
  await page.locator('.question[data-question="household"]').waitFor();
  await page.context().close();
});
