import type { Page } from 'playwright-core';
import { latestRuleSet } from '../../src/rules/read.ts';

/** What a person would say to each question: the id of a choice or of several, figures in order, or nothing ("I do not know"). */
export type Says = Readonly<Record<string, string | readonly string[]>>;

const { words } = latestRuleSet();
const labelOf = (question: string, answer: string): string =>
  words.en?.questions[question]?.answers[answer]?.label ?? answer;

/** A householder whose sediment stage is blocked, at the plant with three gauges and two sediment stages. */
export const blockedStage: Says = {
  danger: [],
  household: [],
  complaint: ['weak'],
  onset: 'gradual',
  'recent-work': [],
  'pump-open': 'cycles-slow',
  'pump-closed': 'stays-off',
  smell: 'none',
  taste: 'none',
  look: 'clear',
  'tank-level': 'half',
  scope: 'whole-house',
  'readings closed': ['3.4', '3.4', '3.4'],
  'readings open 1': ['2.7', '0.9', '0.8'],
};

/** Answers questions until something was found, or `most` were answered. Returns the questions in their order. */
export async function answerAll(page: Page, says: Says, most = 30): Promise<string[]> {
  const asked: string[] = [];
  for (let i = 0; i < most; i++) {
    await settled(page);
    if ((await page.locator('.question').count()) === 0) break;
    const question = (await page.locator('.question').getAttribute('data-question')) ?? '';
    asked.push(question);
    await answerOne(page, question, says[question]);
    await page.waitForFunction(
      ([before, n]) =>
        document.querySelector('.finding, .stop-sign') !== null ||
        document.querySelector('.question')?.getAttribute('data-question') !== before ||
        document.querySelector('.earlier summary')?.textContent !== n,
      [
        question,
        await page
          .locator('.earlier summary')
          .textContent({ timeout: 100 })
          .catch(() => null),
      ] as const,
    );
  }
  return asked;
}

export const settled = (page: Page): Promise<unknown> =>
  page.waitForSelector('.question[aria-busy="false"], .finding, .stop-sign');

export async function answerOne(
  page: Page,
  question: string,
  said: Says[string] | undefined,
): Promise<void> {
  const answers = page.locator('.answers');
  const inputs = answers.locator('.form input');
  if (said === undefined) return answers.locator('.other-answers button').first().click();
  if ((await inputs.count()) > 0) {
    for (const [i, figure] of (said as readonly string[]).entries())
      await inputs.nth(i).fill(figure);
    return answers.locator('.form button[type=submit]').click();
  }
  if (typeof said === 'string') {
    return answers
      .locator('.choices')
      .getByRole('button', { name: labelOf(question, said), exact: true })
      .click();
  }
  for (const choice of said) {
    await answers
      .locator('.choices')
      .getByRole('button', { name: labelOf(question, choice), exact: true })
      .click();
  }
  return answers.locator('button.main').click();
}

/** Works through a job, minding every caution, always with the first answer, and types the readings given. */
export async function doJob(page: Page, readings: readonly string[], most = 60): Promise<string[]> {
  const done: string[] = [];
  for (let i = 0; i < most; i++) {
    await page.waitForSelector('.step');
    if (await page.getByRole('button', { name: 'Write it down and go on' }).isVisible()) break;
    const step = (await page.locator('.step').getAttribute('data-step')) ?? '';
    await page.waitForSelector('.caution-first .tick-button, .ticks');
    const caution = page.locator('.caution-first .tick-button');
    if (await caution.isVisible()) await caution.click();
    await page.waitForSelector('.ticks');
    done.push(step);
    const inputs = page.locator('.ticks .form input');
    if ((await inputs.count()) > 0) {
      for (let k = 0; k < (await inputs.count()); k++)
        await inputs.nth(k).fill(readings[k] ?? '10');
      await page.locator('.ticks .form button[type=submit]').click();
    }
    const answer = page.locator('.ticks > .choices .choice').first();
    if (await answer.isVisible()) await answer.click();
    else if ((await inputs.count()) === 0) await page.locator('.ticks .tick-button').click();
    await page.waitForFunction(
      (before) => document.querySelector('.step')?.getAttribute('data-step') !== before,
      step,
    );
  }
  return done;
}
