import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core';
import type { Plant } from '../../shared/plant/schema.ts';
import { full } from '../full.ts';
import { executablePath } from './chromium.ts';
import { finger, type Hands, keys } from './hands.ts';

/** As people have it: what is timed must be timed with this. */
export const launchPlain = (): Promise<Browser> => chromium.launch({ executablePath });

/** For what is not timed. A page lives for seconds here: optimising its scripts to the last costs more than it brings. */
export const launch = (): Promise<Browser> =>
  chromium.launch({ executablePath, args: ['--js-flags=--no-opt'] });

export interface Screen {
  readonly name: string;
  readonly width: number;
  readonly height: number;
  readonly colorScheme: 'light' | 'dark';
}

export const phone: Screen = {
  name: 'phone, light',
  width: 360,
  height: 740,
  colorScheme: 'light',
};
export const desk: Screen = { name: 'desk, light', width: 1280, height: 800, colorScheme: 'light' };

/** Phone and desk, light and dark. */
export const screens: readonly Screen[] = [
  phone,
  { ...phone, name: 'phone, dark', colorScheme: 'dark' },
  desk,
  { ...desk, name: 'desk, dark', colorScheme: 'dark' },
];

/** The screen named in a quick run, all of them in a full one. */
export const screensFor = (...quick: readonly string[]): readonly Screen[] =>
  full ? screens : screens.filter(({ name }) => quick.includes(name));

/** Where work without a network is tried: on the phone, in a full run on the desk as well. */
export const offlineScreens: readonly Screen[] = screens.filter(
  ({ name }) => name === 'phone, light' || (full && name === 'desk, dark'),
);

/** Each way of working at both sizes. */
export const handsAt = ({ colorScheme }: Screen): Hands => (colorScheme === 'dark' ? keys : finger);

/** Opens a case for a householder as the start page does; gives the link that continues it. */
export async function openedCase(url: string, plant: Plant | undefined): Promise<string> {
  const opened = await fetch(`${url}/api/cases`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ plant, audience: 'householder', language: 'en' }),
  });
  return ((await opened.json()) as { id: string }).id;
}

/** The page that stands there, on another kind of screen. */
export async function turnTo(
  page: Page,
  { width, height, colorScheme }: Omit<Screen, 'name'>,
): Promise<void> {
  await page.setViewportSize({ width, height });
  await page.emulateMedia({ colorScheme });
  // what depends on the width is drawn in the frame after
  await page.evaluate(
    () => new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn))),
  );
}

/** Often enough for a person; a look at every frame would make the browser draw them all. */
export const looking = { polling: 50 } as const;

/** Until this stands there and no button on the page is still being armed. */
export const armed = (page: Page, selector = 'body'): Promise<unknown> =>
  page.waitForFunction(
    (wanted) =>
      document.querySelector(wanted) !== null && document.querySelector('.arming') === null,
    selector,
    looking,
  );

/** Until everything that is needed without a network is kept. */
export const keptForOffline = (page: Page): Promise<unknown> =>
  page.waitForFunction(async () => (await navigator.serviceWorker.ready).active !== null);

export interface Opened {
  readonly page: Page;
  readonly context: BrowserContext;
  /** what the console complained about, broken policies included */
  readonly complaints: string[];
}

export interface VisitOptions {
  readonly serviceWorkers?: 'block';
}

/** A fresh visitor: nothing kept, the screen as given, every complaint of the console written down. */
export async function visitWith(
  browser: Browser,
  { width, height, colorScheme }: Omit<Screen, 'name'>,
  options: VisitOptions = {},
): Promise<Opened> {
  const context = await browser.newContext({
    viewport: { width, height },
    colorScheme,
    hasTouch: width < 500,
    locale: 'en-GB',
    ...options,
  });
  // several of them share two cores
  context.setDefaultTimeout(60_000);
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on('console', (message) => {
    if (['error', 'warning'].includes(message.type())) complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(String(error)));
  return { page, context, complaints };
}
