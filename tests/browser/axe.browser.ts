import axe, { type AxeResults } from 'axe-core';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { around } from './around.ts';
import { type Opened, phone, screensFor, turnTo } from './pages.ts';
import { type Place, places, walk } from './places.ts';

const here = around();

/** What axe finds wrong on the page. Loading axe takes longer than its look, so a page gets it once. */
async function violations(page: Page): Promise<AxeResults['violations']> {
  if (!(await page.evaluate('"axe" in window'))) await page.evaluate(axe.source);
  return page.evaluate(async () => {
    const { axe } = window as unknown as { axe: { run: () => Promise<AxeResults> } };
    return (await axe.run()).violations;
  });
}

/** One visitor goes to every place in turn and looks at it on each kind of screen. */
describe('axe finds nothing', () => {
  let visitor: Opened;
  let goTo: (place: Place) => Promise<void>;
  beforeAll(async () => {
    visitor = await here.visit(phone);
    goTo = walk(visitor.page, here.url);
  });
  afterAll(() => visitor.context.close());

  test.each(places)('$name', async (place) => {
    const { page, complaints } = visitor;
    complaints.length = 0;
    await turnTo(page, phone);
    await goTo(place);
    for (const screen of screensFor('phone, light', 'desk, dark')) {
      await turnTo(page, screen);
      expect(
        (await violations(page)).map(({ id, nodes }) => [
          id,
          nodes.map(({ html }) => html.slice(0, 160)),
        ]),
        screen.name,
      ).toEqual([]);
    }
    expect(complaints).toEqual([]);
  });
});
