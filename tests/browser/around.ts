import type { Browser } from 'playwright-core';
import { afterAll, beforeAll } from 'vitest';
import { launch, type Opened, type Screen, type VisitOptions, visitWith } from './pages.ts';
import { openSite, type Site } from './site.ts';

/** A browser and the real server for the tests of one file, begun before them and ended after. */
export interface Around {
  readonly site: Site;
  readonly url: string;
  /** a fresh visitor */
  visit(screen: Omit<Screen, 'name'>, options?: VisitOptions): Promise<Opened>;
}

/** @param launched the browser; the one for what is not timed when left out */
export function around(launched = launch): Around {
  let browser: Browser;
  let site: Site;
  beforeAll(async () => {
    [browser, site] = await Promise.all([launched(), openSite()]);
  });
  afterAll(async () => {
    await browser.close();
    await site.end();
  });
  return {
    get site() {
      return site;
    },
    get url() {
      return site.url;
    },
    visit: (screen, options) => visitWith(browser, screen, options),
  };
}
