import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core';
import { executablePath } from './chromium.ts';

export const launch = (): Promise<Browser> => chromium.launch({ executablePath });

export interface Screen {
  readonly name: string;
  readonly width: number;
  readonly height: number;
  readonly colorScheme: 'light' | 'dark';
}

/** Phone and desk, light and dark. */
export const screens: readonly Screen[] = [
  { name: 'phone, light', width: 360, height: 740, colorScheme: 'light' },
  { name: 'phone, dark', width: 360, height: 740, colorScheme: 'dark' },
  { name: 'desk, light', width: 1280, height: 800, colorScheme: 'light' },
  { name: 'desk, dark', width: 1280, height: 800, colorScheme: 'dark' },
];

export interface Opened {
  readonly page: Page;
  readonly context: BrowserContext;
  /** what the console complained about, broken policies included */
  readonly complaints: string[];
}

/** A fresh visitor: nothing kept, the screen as given, every complaint of the console written down. */
export async function visit(
  browser: Browser,
  { width, height, colorScheme }: Omit<Screen, 'name'>,
  options: { readonly serviceWorkers?: 'block' } = {},
): Promise<Opened> {
  const context = await browser.newContext({
    viewport: { width, height },
    colorScheme,
    hasTouch: width < 500,
    locale: 'en-GB',
    ...options,
  });
  const page = await context.newPage();
  const complaints: string[] = [];
  page.on('console', (message) => {
    if (['error', 'warning'].includes(message.type())) complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(String(error)));
  return { page, context, complaints };
}
