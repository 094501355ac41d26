import { AxeBuilder } from '@axe-core/playwright';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { around } from './around.ts';
import { type Opened, screensFor } from './pages.ts';
import { type Place, places, walk } from './places.ts';

const here = around();

/** One visitor per kind of screen goes to every place in turn: opening a browser anew for each took minutes. */
describe.each(screensFor('phone, light', 'desk, dark'))('axe finds nothing, $name', (screen) => {
  let visitor: Opened;
  let goTo: (place: Place) => Promise<void>;
  beforeAll(async () => {
    visitor = await here.visit(screen);
    goTo = walk(visitor.page, here.url);
  });
  afterAll(() => visitor.context.close());

  test.each(places)('$name', async (place) => {
    const { page, complaints } = visitor;
    complaints.length = 0;
    await goTo(place);
    const { violations } = await new AxeBuilder({ page }).analyze();
    expect(
      violations.map(({ id, nodes }) => [id, nodes.map(({ html }) => html.slice(0, 160))]),
    ).toEqual([]);
    expect(complaints).toEqual([]);
  });
});
