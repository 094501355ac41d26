import { AxeBuilder } from '@axe-core/playwright';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { around } from './around.ts';
import { type Opened, phone, screensFor, turnTo } from './pages.ts';
import { type Place, places, walk } from './places.ts';

const here = around();

/** One visitor goes to every place in turn and looks at it on each kind of screen: loading it anew for each took minutes. */
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
      // in this page: there are no frames to gather from, and a second page for each look takes as long as the look
      const { violations } = await new AxeBuilder({ page }).setLegacyMode().analyze();
      expect(
        violations.map(({ id, nodes }) => [id, nodes.map(({ html }) => html.slice(0, 160))]),
        screen.name,
      ).toEqual([]);
    }
    expect(complaints).toEqual([]);
  });
});
