import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { measured } from '../full.ts';
import { around } from './around.ts';
import { screens } from './pages.ts';
import { settled } from './person.ts';

const here = around();

/** A person reads a question before touching an answer; meanwhile the worker judges ahead. */
const READING_MS = 4000;

interface Took {
  readonly question: string;
  readonly feedbackMs: number;
  readonly nextMs: number;
}

/**
 * Touches the first answer and measures inside the page, from the touch: until something on the screen has changed and
 * been painted, and until the next question has been.
 */
const touch = (page: Page): Promise<Took> =>
  page.evaluate(
    () =>
      new Promise<Took>((resolve) => {
        const question = document.querySelector('.question')?.getAttribute('data-question') ?? '';
        const button =
          document.querySelector<HTMLElement>('.answers .choices:has(+ .main) ~ .main') ??
          document.querySelector<HTMLElement>('.answers > .choices .choice') ??
          document.querySelector<HTMLElement>('.other-answers .choice');
        const start = performance.now();
        let feedbackMs = 0;
        const painted = (then: () => void): void => {
          requestAnimationFrame(() => setTimeout(then));
        };
        const watch = new MutationObserver(() => {
          if (feedbackMs === 0) {
            feedbackMs = -1;
            painted(() => {
              feedbackMs = performance.now() - start;
            });
          }
          const now = document.querySelector('.question')?.getAttribute('data-question');
          if (now !== question || document.querySelector('.finding')) {
            watch.disconnect();
            painted(() =>
              resolve({
                question,
                feedbackMs: Math.max(feedbackMs, 0) || performance.now() - start,
                nextMs: performance.now() - start,
              }),
            );
          }
        });
        watch.observe(document.body, { subtree: true, childList: true, attributes: true });
        button?.click();
      }),
  );

const median = (values: readonly number[]): number =>
  values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0;

test('at a processor four times slower a touch shows within 50 ms and the next question within 200 ms', async () => {
  const { page, context } = await here.visit(
    screens[0] ?? { width: 360, height: 740, colorScheme: 'light' },
  );
  await page.goto(`${here.url}/plant`);
  await page.locator('.choice.plant').nth(4).click();
  await page.getByRole('button', { name: 'Start the questions' }).click();
  await settled(page);
  const session = await context.newCDPSession(page);
  await session.send('Emulation.setCPUThrottlingRate', { rate: 4 });
  const took: Took[] = [];
  for (let i = 0; i < 8; i++) {
    await settled(page);
    if ((await page.locator('.question').count()) === 0) break;
    if ((await page.locator('.answers .form').count()) > 0) break;
    await page.waitForTimeout(READING_MS);
    took.push(await touch(page));
  }
  const rounded = took.map(
    (one) => `${one.question} ${Math.round(one.feedbackMs)} ${Math.round(one.nextMs)}`,
  );
  process.stdout.write(`question, feedback ms, next question ms:\n${rounded.join('\n')}\n`);
  expect(took.length).toBeGreaterThan(4);
  measured('feedback to a click, median', median(took.map((one) => one.feedbackMs)), 'ms', '≤ 50');
  measured('next question, median', median(took.map((one) => one.nextMs)), 'ms', '≤ 200');
  // medians: the machine that tests run on does other work too
  expect(median(took.map(({ feedbackMs }) => feedbackMs))).toBeLessThanOrEqual(50);
  expect(median(took.map(({ nextMs }) => nextMs))).toBeLessThanOrEqual(200);
  await context.close();
});
