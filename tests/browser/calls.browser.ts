import { randomUUID } from 'node:crypto';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { readyMade } from '../../shared/plant/ready-made.ts';
import { around } from './around.ts';
import { giveTo, sent, signIn } from './at-desk.ts';
import { finger } from './hands.ts';
import { desk, openedCase, phone } from './pages.ts';
import { answerAll, answerOne, blockedStage, settled } from './person.ts';
import { agent, owner, technician } from './site.ts';

const here = around();

const REFUSED = /401|403|404|410/;

/** A case opened at the desk, on the screen of who opened it. */
async function take(page: Page, name: string): Promise<string> {
  const plant = { ...readyMade[4]?.plant, name };
  const { ref } = (await sent(page, 'POST', '/api/desk/cases', { plant })) as { ref: string };
  await page.goto(`${here.url}/case/${ref}`);
  await settled(page);
  return ref;
}

const answered = (page: Page, ref: string): Promise<string[]> =>
  page.evaluate(async (path) => {
    const { case: one } = await (await fetch(path)).json();
    return one.answers.map(({ question }: { question: string }) => question);
  }, `/api/desk/cases/${ref}`);

test('a new call is told apart: by name, reference and priority in the list, and found by each thing told', async () => {
  const { page, context, complaints } = await here.visit(phone);
  await signIn(page, here.url, agent);
  await page.getByRole('link', { name: 'New call' }).click();
  await page.getByLabel('Name of the caller or the plant').fill('The house by the mill');
  await page.getByLabel('Call back').fill('555 0177, after four');
  await page.getByRole('button', { name: /three filters, UV last/ }).click();
  await settled(page);
  await answerOne(page, 'danger', ['wet-electrics']);
  await page.locator('.stop-sign').waitFor();
  const call = page.locator('.call');
  expect(await call.getByLabel('Call back').inputValue()).toBe('555 0177, after four');
  const spoken = /[0-9a-f]{4}\s[0-9a-f]{4}/.exec((await call.textContent()) ?? '')?.[0] ?? '–';
  // and told better later
  await call.getByLabel('Name of the caller or the plant').fill('Fernhollow, the annexe');
  await call.getByLabel('New note').fill('Water stands in the pump house');
  await call.getByRole('button', { name: 'Write it down', exact: true }).click();
  await page.locator('h1', { hasText: 'Fernhollow, the annexe' }).waitFor();
  await call.getByText('Water stands in').waitFor();

  await page.goto(`${here.url}/desk`);
  const row = page.locator('.desk .line').filter({ hasText: 'Fernhollow, the annexe' });
  for (const told of [spoken, spoken.replace(/\s/, ''), '0177', 'STANDS IN THE PUMP', 'annexe']) {
    await page.locator('#search').fill('nothing has this name');
    await page.getByText('No cases fit.').waitFor();
    await page.locator('#search').fill(told);
    await row.waitFor();
  }
  expect(await row.textContent()).toContain(spoken);
  expect(await row.textContent()).toContain('priority urgent');
  expect(complaints).toEqual([]);
  await context.close();
});

test('a note begun is there again after the screen was left, and is written down with closing the case', async () => {
  const { page, context, complaints } = await here.visit(desk);
  await signIn(page, here.url, agent);
  const ref = await take(page, 'A note begun');
  await page.getByLabel('New note').fill('They ring again on Monday');
  await page.reload();
  await settled(page);
  expect(await page.getByLabel('New note').inputValue()).toBe('They ring again on Monday');
  await page.getByRole('button', { name: 'not reached' }).click();
  await page.locator('#search').waitFor();
  const { notes } = (await sent(page, 'GET', `/api/desk/cases/${ref}`)) as {
    notes: { text: string }[];
  };
  expect(notes.map(({ text }) => text)).toEqual(['They ring again on Monday']);
  await page.goto(`${here.url}/case/${ref}`);
  await page.locator('.notes li').waitFor();
  expect(await page.getByLabel('New note').inputValue()).toBe('');
  expect(complaints).toEqual([]);
  await context.close();
});

test('an answer that somebody else changed is told with what it was, what one changes oneself is not', async () => {
  const { page, context, complaints } = await here.visit(desk);
  await signIn(page, here.url, agent);
  const ref = await take(page, 'Two people');
  await answerAll(page, blockedStage, finger, 4);
  await settled(page);
  const other = (question: string, value: unknown) =>
    sent(page, 'POST', `/api/desk/cases/${ref}/answers`, {
      answerId: randomUUID(),
      question,
      value,
    });
  await expect.poll(() => answered(page, ref)).toContain('onset');
  const told = page.locator('.changed-elsewhere');
  expect(await told.count()).toBe(0);
  await other('onset', 'sudden');
  await told.waitFor();
  expect(await told.textContent()).toMatch(/How it began: now All at once; it was Slowly/);
  await other('household', null);
  await expect.poll(() => told.textContent()).toMatch(/took an answer back\. Who drinks/);
  await told.getByRole('button', { name: 'I have seen it' }).click();
  expect(await told.count()).toBe(0);
  expect(complaints).toEqual([]);
  await context.close();
});

test('a sign-in that ends in the middle of a case is told, signed in again there, and nothing is lost', async () => {
  const { page, context, complaints } = await here.visit(phone);
  await signIn(page, here.url, agent);
  const ref = await take(page, 'Signed out');
  await answerOne(page, 'danger', []);
  await settled(page);
  await expect.poll(() => answered(page, ref)).toEqual(['danger']);
  await context.clearCookies();
  await answerOne(page, 'household', []);
  await settled(page);
  const ended = page.locator('.sign-in-ended');
  await ended.waitFor();
  // the next question can be answered all the same
  await answerOne(page, 'complaint', ['weak']);
  await settled(page);
  await ended.getByRole('button', { name: 'Sign in' }).click();
  await ended.getByLabel('E-mail').fill(agent.email);
  await ended.getByLabel('Password').fill(agent.password);
  await page.keyboard.press('Enter');
  await ended.waitFor({ state: 'detached' });
  await settled(page);
  expect(new URL(page.url()).pathname).toBe(`/case/${ref}`);
  await expect
    .poll(() => answered(page, ref), { timeout: 30_000 })
    .toEqual(['danger', 'household', 'complaint']);

  // the list says it too
  await page.goto(`${here.url}/desk`);
  await page.locator('.desk .line').first().waitFor();
  await context.clearCookies();
  await page.locator('#search').fill('mill');
  await page.getByText('Your sign-in has ended.').waitFor();
  await page.getByLabel('E-mail').waitFor();
  expect(complaints.filter((text) => !REFUSED.test(text))).toEqual([]);
  await context.close();
});

test('an owner erases a case from the desk, asked once more before; others have no button for it', async () => {
  const calls = await here.visit(desk);
  await signIn(calls.page, here.url, agent);
  const ref = await take(calls.page, 'To be erased');
  await calls.page.getByRole('button', { name: 'not reached' }).waitFor();
  expect(await calls.page.getByRole('button', { name: 'Erase the case' }).count()).toBe(0);
  await calls.context.close();

  const { page, context, complaints } = await here.visit(desk);
  await signIn(page, here.url, owner);
  await page.goto(`${here.url}/case/${ref}`);
  await page.getByRole('button', { name: 'Erase the case' }).click();
  await page.getByRole('button', { name: /^Erase it with its answers/ }).click();
  await page.locator('#search').waitFor();
  expect(await sent(page, 'GET', `/api/desk/cases/${ref}`)).toMatchObject({ status: 404 });
  await page.goto(`${here.url}/case/${ref}`);
  await page.getByText('There is no such case here').waitFor();
  expect(complaints.filter((text) => !REFUSED.test(text))).toEqual([]);
  await context.close();
});

test('who is at a job when the case is taken from them, or its link withdrawn, is told there', async () => {
  const calls = await here.visit(desk);
  await signIn(calls.page, here.url, agent);
  const ref = await take(calls.page, 'A job half done');
  await giveTo(calls.page, ref, technician.name);
  const van = await here.visit(phone);
  await signIn(van.page, here.url, technician);
  await van.page.goto(`${here.url}/case/${ref}`);
  await van.page.locator('.visit').waitFor();
  await van.page.goto(`${here.url}/case/${ref}/work/change-sediment/-`);
  await van.page.locator('.work .step').waitFor();
  await sent(calls.page, 'POST', `/api/desk/cases/${ref}/assign`, { to: null });
  await van.page.getByText('The desk no longer gives you this case.').waitFor();
  expect(await van.page.locator('.work .step').count()).toBe(1);
  await van.context.close();
  await calls.context.close();

  const id = await openedCase(here.url, readyMade[4]?.plant);
  const own = await here.visit(phone);
  await own.page.goto(`${here.url}/c/${id}`);
  await settled(own.page);
  await own.page.goto(`${own.page.url()}/work/change-sediment/-`);
  await own.page.locator('.work .step').waitFor();
  await own.page.evaluate(
    (path) =>
      fetch(path, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({ strengths: ['continue'] }),
      }),
    `/api/cases/${id}/withdraw`,
  );
  await own.page.getByText('The link to this case takes no more.').waitFor();
  await own.context.close();
});
