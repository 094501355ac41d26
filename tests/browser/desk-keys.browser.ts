import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { readyMade } from '../../shared/plant/ready-made.ts';
import { around } from './around.ts';
import { sent, signIn } from './at-desk.ts';
import { finger } from './hands.ts';
import { desk } from './pages.ts';
import { answerAll, blockedStage, settled } from './person.ts';
import { agent, technician } from './site.ts';

const here = around();

/** A case at the desk under this name, on the screen once its question is ready. */
async function called(page: Page, name: string): Promise<string> {
  const plant = { ...readyMade.find(({ id }) => id === 'two-stages')?.plant, name };
  const { ref } = (await sent(page, 'POST', '/api/desk/cases', { plant })) as { ref: string };
  await page.goto(`${here.url}/case/${ref}`);
  await settled(page);
  return ref;
}

const asked = (page: Page, question: string) =>
  page.locator(`.question[data-question="${question}"][aria-busy="false"]`).waitFor();

const focused = (page: Page): Promise<string> =>
  page.evaluate(() => document.activeElement?.id || (document.activeElement?.className ?? ''));

test('who is in danger waits for no plant: from the list two keys and a name lead to the first question', async () => {
  const { page, context, complaints } = await here.visit(desk);
  await signIn(page, here.url, agent);
  await page.keyboard.press('n');
  await page.getByRole('heading', { name: 'New call' }).waitFor();
  await expect.poll(() => focused(page)).toBe('caller-name');
  await page.keyboard.type('Somebody frightened');
  await page.keyboard.press('Enter');
  await asked(page, 'danger');
  expect(await page.locator('h1').textContent()).toBe('Somebody frightened');
  await page
    .getByRole('heading', { name: "The caller's line and the pressure along it" })
    .waitFor();
  // the plant is described when there is time for it
  await page.keyboard.press('p');
  await page.getByRole('button', { name: 'Keep' }).first().waitFor();
  await page.getByRole('link', { name: 'Back to the case' }).click();
  await settled(page);
  // until then a usual one is said to stand in, and it is chosen by a key as with a new call
  const standsIn = page.getByText('The usual plant stands in');
  await standsIn.waitFor();
  await page.keyboard.press('p');
  await page.getByRole('button', { name: 'Choose another plant altogether' }).click();
  await page.locator('.plants .number').first().waitFor();
  await page.keyboard.press('1');
  await settled(page);
  await expect.poll(() => page.locator('.plant-line').textContent()).not.toContain('G1');
  expect(await page.locator('h1').textContent()).toBe('Somebody frightened');
  expect(await standsIn.count()).toBe(0);
  // the way back from a case at the desk is the desk
  await page.getByRole('link', { name: 'Call desk' }).click();
  await page.locator('#search').waitFor();

  // a plant that is known has its key too
  await page.keyboard.press('n');
  await page.getByRole('heading', { name: 'New call' }).waitFor();
  await page.locator('.plants .number').first().waitFor();
  await page.locator('.begin-call button').focus();
  await page.keyboard.press('9');
  await asked(page, 'danger');
  expect(await page.locator('.plant-line').textContent()).not.toContain('pump');
  expect(complaints).toEqual([]);
  await context.close();
});

test('figures are typed one after the other: the first digit begins, Enter goes to the next, the last Enter keeps all', async () => {
  const { page, context, complaints } = await here.visit(desk);
  await signIn(page, here.url, agent);
  const ref = await called(page, 'Three gauges');
  for (let i = 0; i < 20; i++) {
    await settled(page);
    if (await page.locator('.question[data-question="readings closed"]').isVisible()) break;
    await answerAll(page, blockedStage, finger, 1);
  }
  await asked(page, 'readings closed');
  const figures = page.locator('.answers .form input');
  await page.keyboard.type('3.4');
  expect(await figures.first().inputValue()).toBe('3.4');
  await page.keyboard.press('Enter');
  expect(await page.locator('.question').getAttribute('data-question')).toBe('readings closed');
  await page.keyboard.type('3.3');
  await page.keyboard.press('Enter');
  await page.keyboard.type('3.2');
  await page.keyboard.press('Enter');
  await page.locator('.question:not([data-question="readings closed"])').waitFor();
  const kept = async () => {
    const { case: one } = (await sent(page, 'GET', `/api/desk/cases/${ref}`)) as {
      case: { answers: { question: string; value: { bar?: unknown } }[] };
    };
    return one.answers.find(({ question }) => question === 'readings')?.value.bar;
  };
  await expect.poll(kept).toEqual({ G1: 3.4, G2: 3.3, G3: 3.2 });
  // in a field every key writes, and Escape leads out of it
  await page.getByLabel('How to get in').focus();
  await page.keyboard.press('Escape');
  await page.keyboard.press('n');
  expect(await focused(page)).toBe('new-note');
  expect(await page.getByLabel('New note').inputValue()).toBe('');
  expect(complaints).toEqual([]);
  await context.close();
});

test('the list stays as it was narrowed when one comes back from a case, until one signs out', async () => {
  const { page, context, complaints } = await here.visit(desk);
  await signIn(page, here.url, agent);
  const ref = await called(page, 'Tilley, the weir');
  await sent(page, 'POST', `/api/desk/cases/${ref}/close`, { how: 'settled' });
  await called(page, 'Tilley, the ridge');
  await page.goto(`${here.url}/desk`);
  await page.locator('#search').waitFor();
  await page.keyboard.press('/');
  await page.keyboard.type('ridge tilley');
  await page.getByLabel('State').selectOption('open');
  const rows = page.locator('.desk .line');
  await expect.poll(() => rows.count()).toBe(1);
  await rows.first().click();
  await settled(page);
  await page.keyboard.press('l');
  await page.locator('#search').waitFor();
  expect(await page.locator('#search').inputValue()).toBe('ridge tilley');
  expect(await page.getByLabel('State').inputValue()).toBe('open');
  await expect.poll(() => rows.count()).toBe(1);
  // a closed one says how, and the states say how many stand in them
  await page.getByLabel('State').selectOption('closed');
  await page.locator('#search').fill('tilley');
  await expect
    .poll(async () => rows.allTextContents())
    .toEqual([expect.stringContaining('settled on the phone')]);
  expect(await page.locator('#state option').allTextContents()).toContain('closed (1)');
  await page.getByRole('button', { name: 'Narrow it no more' }).click();
  expect(await page.locator('#search').inputValue()).toBe('');
  await expect.poll(() => rows.count()).toBeGreaterThan(1);
  await page.locator('#search').fill('ridge');
  await page.getByRole('button', { name: /^Sign .* out$/ }).click();
  await page.locator('#email').waitFor();
  expect(await page.evaluate(() => sessionStorage.length)).toBe(0);
  expect(complaints).toEqual([]);
  await context.close();
});

test('what somebody did already and did not help is told by two presses, and the desk asks anew', async () => {
  const { page, context, complaints } = await here.visit(desk);
  await signIn(page, here.url, agent);
  await called(page, 'Not fixed');
  await answerAll(page, blockedStage, finger);
  await page.locator('.finding').waitFor();
  const first = page.locator('.verdict .job-line').first();
  const job = await first.locator('.job-name').textContent();
  await first.getByRole('button', { name: 'It was done already' }).click();
  await first.getByRole('button', { name: /^Done, and something is still wrong/ }).click();
  await asked(page, 'complaint');
  await answerAll(page, blockedStage, finger);
  await page.locator('.finding').waitFor();
  expect(await page.locator('.verdict .job-name').first().textContent()).not.toBe(job);
  expect(complaints).toEqual([]);
  await context.close();
});

test('a case is not closed as sent unawares while no technician has it, and its report plans nothing before anything was told', async () => {
  const { page, context, complaints } = await here.visit(desk);
  await signIn(page, here.url, agent);
  const ref = await called(page, 'Nobody sees it');
  await page.goto(`${here.url}/case/${ref}/report`);
  await page.getByText('Nothing is told yet').waitFor();
  await page.getByRole('heading', { name: 'Next dates' }).waitFor();
  expect(await page.getByRole('heading', { name: 'What to do' }).count()).toBe(0);

  await page.goto(`${here.url}/case/${ref}`);
  await page
    .locator('#who-has-it option')
    .filter({ hasText: technician.name })
    .waitFor({ state: 'attached' });
  await page.getByRole('button', { name: 'somebody was sent' }).click();
  await page.getByRole('button', { name: /^No technician has the case/ }).waitFor();
  await page.getByRole('button', { name: 'Leave it as it was' }).click();
  await page.locator('#who-has-it').selectOption({ label: `${technician.name}, technician` });
  const holder = async () => {
    const { desk } = (await sent(page, 'GET', `/api/desk/cases/${ref}`)) as {
      desk: { assignedTo: string | null };
    };
    return desk.assignedTo;
  };
  const value = await page.locator('#who-has-it').inputValue();
  await expect.poll(holder).toBe(value);
  await page.getByRole('button', { name: 'somebody was sent' }).click();
  await page.locator('#search').waitFor();
  expect(complaints).toEqual([]);
  await context.close();
});

test('a caller who is not at the plant is said so once by one key: what only somebody there can answer waits until it is taken back', async () => {
  const { page, context, complaints } = await here.visit(desk);
  await signIn(page, here.url, agent);
  await called(page, 'At work');
  await answerAll(page, blockedStage, finger, 4);
  await asked(page, 'pump-open');
  await page.getByRole('button', { name: 'The caller is not at the plant' }).waitFor();
  await page.keyboard.press('w');
  await page.locator('.question:not([data-question="pump-open"])').waitFor();
  await page.locator('.decided', { hasText: 'Agree on a call-back' }).waitFor();
  // in words that send nobody to a tap
  const left = await answerAll(page, {});
  expect(left).not.toContain('pump-open');
  expect(left.some((question) => question.startsWith('readings'))).toBe(false);
  await page.locator('.finding').waitFor();
  // somebody is there now
  await page.getByRole('button', { name: 'Somebody is at the plant now' }).waitFor();
  await settled(page);
  await page.keyboard.press('w');
  await asked(page, 'pump-open');
  expect(await page.locator('.decided').textContent()).not.toContain('Agree on a call-back');
  expect(complaints).toEqual([]);
  await context.close();
});

test('what the caller said in their own words is typed after one key, and what is asked back has keys of its own', async () => {
  const { page, context, complaints } = await here.visit(desk);
  await signIn(page, here.url, agent);
  await called(page, 'Told in own words');
  await page.keyboard.press('0');
  await asked(page, 'household');
  await settled(page);
  await page.keyboard.press('0');
  await asked(page, 'complaint');
  await settled(page);
  await page.keyboard.press('o');
  await expect.poll(() => focused(page)).toBe('own-words');
  await page.keyboard.type('the shower is weak');
  await page.keyboard.press('Enter');
  const besides = page.locator('.own-words .choice');
  await besides.filter({ hasText: 'Nothing else' }).waitFor();
  expect(await besides.first().locator('.number').textContent()).toBe('1');
  // neither finishes the answer without it, nor ticks the list above
  await page.keyboard.press('0');
  await besides.filter({ hasText: 'A noise' }).waitFor();
  const noise =
    (await besides.filter({ hasText: 'A noise' }).locator('.number').textContent()) ?? '';
  await page.keyboard.press(noise);
  await page.getByText(/Understood: .*A noise/).waitFor();
  await page.keyboard.press('1');
  await settled(page);
  expect(await page.locator('.question').getAttribute('data-question')).not.toBe('complaint');
  const told = page.locator('.earlier', { hasText: 'Weak water' });
  expect(await told.first().textContent()).toContain('A noise');
  expect(complaints).toEqual([]);
  await context.close();
});

test('too many tries to sign in are not told as a wrong password, and a wrong one says who gives a new one', async () => {
  const { page, context } = await here.visit(desk);
  await page.goto(`${here.url}/desk`);
  await page.getByLabel('E-mail').fill(agent.email);
  await page.getByLabel('Password').fill('not the pass phrase');
  await page.keyboard.press('Enter');
  await page.getByText(/do not fit.*owner/).waitFor();
  const tries = Array.from({ length: 12 }, () =>
    sent(page, 'POST', '/api/desk/sign-in', { email: agent.email, password: 'nor this one' }),
  );
  await Promise.all(tries);
  await page.getByLabel('Password').fill(agent.password);
  await page.keyboard.press('Enter');
  await page.getByText(/^Too many tries/).waitFor();
  expect(await page.getByText('do not fit').count()).toBe(0);
  await context.close();
});
