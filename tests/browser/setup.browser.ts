import type { Locator, Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { measured } from '../full.ts';
import { around } from './around.ts';
import { desk, phone } from './pages.ts';
import { settled } from './person.ts';
import { newWords, secondsFor, wordsOn } from './time-taken.ts';

const here = around();
const MOST_SECONDS = 120;

/** A hand that counts what it does, and eyes that count what they read before it. */
async function newcomer(page: Page) {
  const read = new Set<string>();
  const way = { touches: 0, foreseen: 0, typed: { times: 0, characters: 0 }, words: 0 };
  const find = async (target: Locator): Promise<void> => {
    await target.scrollIntoViewIfNeeded();
    way.words += await wordsOn(page, read);
  };
  const press = async (target: Locator): Promise<void> => {
    await find(target);
    way.touches += 1;
    await target.click();
  };
  return {
    way,
    touch: (name: string | RegExp, role: 'button' | 'link' = 'button') =>
      press(page.getByRole(role, { name, exact: typeof name === 'string' })),
    unfold: (part: string) => press(page.locator('.part-row summary', { hasText: part })),
    /** opens the list, takes one of it and adds it; the other kinds are read on the way */
    async add(kind: string) {
      const list = page.getByLabel('Add a part');
      await find(list);
      way.words += newWords(await list.locator('option').allTextContents(), read);
      way.touches += 2;
      await list.selectOption({ label: kind });
      way.foreseen += 1;
      await press(page.getByRole('button', { name: 'Add', exact: true }));
    },
    async type(label: string, text: string) {
      way.typed.times += 1;
      way.typed.characters += text.length;
      await press(page.getByLabel(label));
      await page.keyboard.type(text);
    },
  };
}

test('a farm on a hillside sets up its own plant in under two minutes: parts added, moved and taken out, all of it read', async () => {
  const { page, context, complaints } = await here.visit(phone);
  await page.goto(here.url);
  const { way, touch, unfold, add, type } = await newcomer(page);
  await touch('Something is wrong with my water', 'link');
  await touch(/vessel, one filter/);
  await type('What do you call it?', 'Hill farm');
  // a softener and a lamp after the one filter, a third gauge between them, no valve
  for (const kind of ['softener', 'UV steriliser', 'gauge']) await add(kind);
  await touch('Move G3 earlier, towards the tank');
  await unfold('isolating valve');
  await touch('Take v1 out');
  const order = await page.locator('.part-row summary').allTextContents();
  expect(order.slice(-5)).toEqual(['G2, gauge', 'softener', 'G3, gauge', 'UV steriliser', 'house']);
  expect(order.join()).not.toContain('valve');
  await touch('Start the questions');
  await settled(page);
  expect(await page.locator('.plant-name').textContent()).toBe('Hill farm');
  const seconds = Math.round(secondsFor(way));
  process.stdout.write(
    `an own plant: ${way.touches} touches, ${way.typed.characters} characters, ${way.words} words read: ${seconds} s\n`,
  );
  measured('setting up an own plant, a newcomer on a phone', seconds, 's', `< ${MOST_SECONDS}`);
  expect(seconds).toBeLessThan(MOST_SECONDS);
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

test('a setting that cannot be is told by the name of its field and in the chosen unit', async () => {
  const { page, context } = await here.visit(phone);
  await page.goto(here.url);
  await page.locator('#pressure-in').selectOption('psi');
  await page.goto(`${here.url}/plant`);
  await page
    .getByRole('button', { name: /pressure switch/ })
    .first()
    .click();
  await page.locator('.part-row summary', { hasText: 'pump' }).click();
  await page.getByLabel('Starts at').fill('60');
  await page.getByLabel('Stops at').fill('50');
  const told = page.locator('.setup > .wrong');
  await told.waitFor();
  const text = await told.textContent();
  expect(text).toContain('Starts at');
  expect(text).toContain('60 psi');
  expect(text).toContain('50 psi');
  expect(text).not.toMatch(/bar|line\[/i);
  await context.close();
});
