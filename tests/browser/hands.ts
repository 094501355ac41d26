import type { Locator, Page } from 'playwright-core';

/** How a person works the screen. */
export interface Hands {
  readonly name: string;
  press(page: Page, target: Locator): Promise<void>;
  type(page: Page, target: Locator, text: string): Promise<void>;
}

export const finger: Hands = {
  name: 'by touch',
  press: (_, target) => target.click(),
  type: (_, target, text) => target.fill(text),
};

/** Keys alone: Tab until it has the focus, then Enter. Who sees the screen must see where they are on the way. */
export const keys: Hands = {
  name: 'by keyboard alone',
  async press(page, target) {
    const group = await target.evaluate(
      (it: HTMLInputElement) => it.matches('input[type=radio]') && it.name,
    );
    if (group === false) {
      await tabTo(page, target);
      return page.keyboard.press('Enter');
    }
    // one of a group has the focus, the arrows go from one to the next
    await tabTo(page, page.locator(`input[name="${group}"]:checked`));
    for (let i = 0; i < MOST_RADIOS && !(await target.isChecked()); i++)
      await page.keyboard.press('ArrowDown');
  },
  async type(page, target, text) {
    await tabTo(page, target);
    await page.keyboard.press('Control+A');
    await page.keyboard.type(text);
  },
};

const MOST_TABS = 150;
const MOST_RADIOS = 9;

async function tabTo(page: Page, target: Locator): Promise<void> {
  await target.waitFor();
  for (let i = 0; i < MOST_TABS; i++) {
    const focus = await target.evaluate((it) => {
      if (document.activeElement !== it) return 'elsewhere';
      // parts of the drawing carry their own mark
      const seen = it.closest('svg') !== null || getComputedStyle(it).outlineStyle !== 'none';
      return seen ? 'here' : 'unseen';
    });
    if (focus === 'here') return;
    if (focus === 'unseen') throw new Error(`the focus is not seen on ${target}`);
    await page.keyboard.press('Tab');
  }
  throw new Error(`Tab never reached ${target}`);
}
