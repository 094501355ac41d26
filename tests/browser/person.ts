import type { Page } from 'playwright-core';
import { latestRuleSet } from '../../src/rules/read.ts';
import { finger, type Hands } from './hands.ts';
import { armed, looking } from './pages.ts';

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
export async function answerAll(
  page: Page,
  says: Says,
  hands: Hands = finger,
  most = 30,
): Promise<string[]> {
  const asked: string[] = [];
  for (let i = 0; i < most; i++) {
    await settled(page);
    if ((await page.locator('.question').count()) === 0) break;
    const question = (await page.locator('.question').getAttribute('data-question')) ?? '';
    asked.push(question);
    const before = await page.locator('.earlier summary').allTextContents();
    await answerOne(page, question, says[question], hands);
    await page.waitForFunction(
      ([asking, answered]) =>
        document.querySelector('.finding, .stop-sign') !== null ||
        document.querySelector('.question')?.getAttribute('data-question') !== asking ||
        document.querySelector('.earlier summary')?.textContent !== answered,
      [question, before[0]] as const,
      looking,
    );
  }
  return asked;
}

export const settled = (page: Page): Promise<unknown> =>
  armed(page, '.question[aria-busy="false"], .finding, .stop-sign');

export async function answerOne(
  page: Page,
  question: string,
  said: Says[string] | undefined,
  hands: Hands = finger,
): Promise<void> {
  const answers = page.locator('.answers');
  const inputs = answers.locator('.form input');
  // an agent sees a number before the label
  const choice = (answer: string) =>
    answers
      .locator('.choices .choice')
      .filter({ has: page.getByText(labelOf(question, answer), { exact: true }) });
  if (said === undefined)
    return hands.press(page, answers.locator('.other-answers button').first());
  if ((await inputs.count()) > 0) {
    for (const [i, figure] of (said as readonly string[]).entries())
      await hands.type(page, inputs.nth(i), figure);
    return hands.press(page, answers.locator('.form button[type=submit]'));
  }
  if (typeof said === 'string') return hands.press(page, choice(said));
  for (const one of said) await hands.press(page, choice(one));
  return hands.press(page, answers.locator('button.main'));
}

const stepReady = '.step[aria-busy="false"]';

/** Works through a job, minding every caution, always with the first answer, and types the readings given. */
export async function doJob(
  page: Page,
  readings: readonly string[],
  hands: Hands = finger,
  most = 60,
): Promise<string[]> {
  const done: string[] = [];
  for (let i = 0; i < most; i++) {
    await armed(page, stepReady);
    if (await page.getByRole('button', { name: 'Write it down and go on' }).isVisible()) break;
    const step = (await page.locator('.step').getAttribute('data-step')) ?? '';
    const caution = page.locator('.caution-first .tick-button');
    if (await caution.isVisible()) {
      await hands.press(page, caution);
      await armed(page, `${stepReady}:not(.caution-first)`);
    }
    done.push(step);
    const inputs = page.locator('.ticks .form input');
    const figures = await inputs.count();
    // at rest every gauge shows what the first does
    const shown = step === 'readings-closed' ? readings.map(() => readings[0]) : readings;
    for (let k = 0; k < figures; k++) await hands.type(page, inputs.nth(k), shown[k] ?? '10');
    const answer = page.locator('.ticks > .choices .choice').first();
    if (figures > 0)
      await hands.press(page, page.locator('.ticks .form button[type=submit]').first());
    else if (await answer.isVisible()) await hands.press(page, answer);
    else await hands.press(page, page.locator('.ticks .tick-button'));
    await page.waitForFunction(
      (before) => document.querySelector('.step')?.getAttribute('data-step') !== before,
      step,
      looking,
    );
  }
  return done;
}
