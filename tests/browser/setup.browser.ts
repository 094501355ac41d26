import { expect, test } from 'vitest';
import { around } from './around.ts';
import { desk, phone } from './pages.ts';
import { settled } from './person.ts';

const here = around();

/**
 * What a deliberate touch takes somebody who has to find it first: Keystroke-Level Model (Card, Moran & Newell 1980,
 * values from memory): 1.35 s to think, 1.1 s to point, 0.2 s to press; tripled for wet hands and reading.
 */
const SECONDS_A_TOUCH = 3 * (1.35 + 1.1 + 0.2);

test('a plant is set up in under two minutes: touches counted, a part added, moved and taken out', async () => {
  const { page, context, complaints } = await here.visit(phone);
  await page.goto(here.url);
  let touches = 0;
  const touch = async (
    name: string | RegExp,
    role: 'button' | 'link' = 'button',
  ): Promise<void> => {
    touches += 1;
    await page.getByRole(role, { name, exact: typeof name === 'string' }).click();
  };
  await touch('Something is wrong with my water', 'link');
  await touch(/three filters, UV last/);
  // an own gauge more, one step nearer the tank; a second filter that is not there
  await touch('Add');
  await page
    .locator('.part-row')
    .nth(-2)
    .getByRole('button', { name: /earlier|before/i })
    .click();
  touches += 1;
  await page.locator('.part-row', { hasText: 'sediment-2' }).locator('summary').click();
  await touch('Take sediment-2 out');
  touches += 1;
  const order = await page.locator('.part-row summary').allTextContents();
  expect(order.join()).not.toContain('sediment-2');
  expect(order.at(-1)).toContain('house');
  await touch('Start the questions');
  await settled(page);
  process.stdout.write(`touches from the start page to the first question: ${touches}\n`);
  expect(touches * SECONDS_A_TOUCH).toBeLessThan(120);
  expect(complaints).toEqual([]);
  await context.close();
});

test('a part dragged onto another stands in its place', async () => {
  const { page, context, complaints } = await here.visit(desk);
  await page.goto(`${here.url}/plant`);
  await page.locator('.choice.plant').nth(4).click();
  const names = (): Promise<string[]> => page.locator('.part-row summary').allTextContents();
  const before = await names();
  await page.locator('.part-row').nth(2).dragTo(page.locator('.part-row').nth(5));
  const expected = [...before];
  expected.splice(5, 0, ...expected.splice(2, 1));
  await expect.poll(names).toEqual(expected);
  expect(complaints).toEqual([]);
  await context.close();
});
