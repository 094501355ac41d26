import { randomUUID } from 'node:crypto';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { readyMade } from '../../shared/plant/ready-made.ts';
import { around } from './around.ts';
import { giveTo, sent, signIn } from './at-desk.ts';
import { desk, keptForOffline, phone } from './pages.ts';
import { answerOne, settled } from './person.ts';
import { agent, owner, technician } from './site.ts';

const here = around();

/** What a caller whose first sediment stage is blocked told. */
const told = [
  ['danger', []],
  ['household', []],
  ['complaint', ['weak']],
  ['readings', { taps: 'closed', bar: { G1: 3.4, G2: 3.4, G3: 3.4 } }],
  ['readings', { taps: { open: 1 }, bar: { G1: 2.7, G2: 0.9, G3: 0.8 } }],
] as const;

/** A case for a caller with three gauges, opened at the desk. */
async function openCase(page: Page, name: string): Promise<string> {
  const plant = { ...readyMade[4]?.plant, name };
  const opened = { plant, audience: 'agent', language: 'en' };
  const { ref } = (await sent(page, 'POST', '/api/desk/cases', opened)) as { ref: string };
  return ref;
}

async function show(page: Page, name: string): Promise<void> {
  await page.goto(`${here.url}/desk`);
  await page.locator('.desk .line').filter({ hasText: name }).click();
  await page.locator('.case').waitFor();
}

/** Everything the browser keeps of cases, as text. */
const kept = (page: Page): Promise<string> =>
  page.evaluate(
    () =>
      new Promise<string>((done) => {
        const opening = indexedDB.open('gaugewalk');
        opening.onsuccess = () => {
          const all = opening.result.transaction('cases').objectStore('cases').getAll();
          all.onsuccess = () => done(JSON.stringify(all.result));
        };
      }),
  );

test('what an agent writes beside a case meets who is sent to it, and their note comes back', async () => {
  const calls = await here.visit(desk);
  await signIn(calls.page, here.url, agent);
  const ref = await openCase(calls.page, 'Fernhollow');
  for (const [question, value] of told) {
    const answer = { answerId: randomUUID(), question, value };
    await sent(calls.page, 'POST', `/api/desk/cases/${ref}/answers`, answer);
  }
  await show(calls.page, 'Fernhollow');
  await calls.page.getByLabel('How to get in').fill('Key under the third pot');
  // a slow server writes nothing over what is being typed
  await calls.page.route('**/call', async (route) => {
    await new Promise((after) => setTimeout(after, 200));
    await route.continue();
  });
  const callBack = calls.page.getByLabel('Call back (number and when)');
  await callBack.pressSequentially('555 0142, after four', { delay: 30 });
  const called = calls.page.waitForResponse(
    (response) =>
      /\/call$/.test(response.url()) && !!response.request().postData()?.includes('555 0142'),
  );
  await calls.page.getByLabel('New note').fill('The dog is friendly');
  await calls.page.getByRole('button', { name: 'Write it down', exact: true }).click();
  await calls.page.locator('.notes li').waitFor();
  await called;
  const assigned = calls.page.waitForResponse(/\/assign$/);
  await calls.page.getByLabel('Who has it').selectOption('Technician, technician');
  await assigned;
  await calls.page.goto(`${here.url}/desk`);
  await calls.page.locator('.line').filter({ hasText: 'Technician has it' }).waitFor();
  // and the list can be narrowed to what somebody has
  await calls.page.getByLabel('Who has it').selectOption('Owner');
  await calls.page.getByText('No cases fit.').waitFor();
  await calls.page.getByRole('button', { name: 'Narrow it no more' }).click();

  const van = await here.visit(phone);
  await signIn(van.page, here.url, technician);
  await show(van.page, 'Fernhollow');
  const visit = van.page.locator('.visit');
  await visit.getByText('Key under the third pot').waitFor();
  // the decision is told once it is known what the plan needs first
  await visit.getByText('Priority: normal').waitFor();
  const met = await visit.textContent();
  expect(met).toContain('555 0142, after four');
  expect(met).toContain('none of these');
  expect(met).toMatch(/Suspected.*sediment cartridge/);
  expect(met).toMatch(/Load on the van.*o-ring/i);
  expect(met).toMatch(/Priority: normal/);
  expect(met).toContain('The dog is friendly');
  // it stands before all else
  expect(await van.page.locator('.column.ask > *').first().getAttribute('class')).toBe('visit');
  await visit.getByLabel('New note').fill('Took two cartridges');
  await visit.getByRole('button', { name: 'Write it down', exact: true }).click();
  await visit.getByText('Took two cartridges').waitFor();

  // without a network what was read stays; a note that cannot be kept stays in its line
  await keptForOffline(van.page);
  await van.context.setOffline(true);
  await visit.getByLabel('New note').fill('No network here');
  await visit.getByRole('button', { name: 'Write it down', exact: true }).click();
  await visit.getByRole('alert').waitFor();
  expect(await visit.getByLabel('New note').inputValue()).toBe('No network here');
  expect(await visit.textContent()).toContain('Key under the third pot');
  // and where there is none at all the way in is still known
  expect(await kept(van.page)).toContain('third pot');
  await van.page.reload();
  await visit.getByText('Key under the third pot').waitFor();
  expect(await visit.textContent()).toContain('Key under the third pot');
  expect(await visit.textContent()).toContain('555 0142, after four');
  await van.context.setOffline(false);

  await show(calls.page, 'Fernhollow');
  await calls.page.getByText('Took two cartridges').waitFor();
  // the agent is not sent, and has the call beside the case
  expect(await calls.page.locator('.visit').count()).toBe(0);

  // who was sent still has to get in; and what was closed can be opened again
  await calls.page.getByRole('button', { name: 'somebody was sent' }).click();
  await calls.page.locator('#search').waitFor();
  await van.page.reload();
  await van.page.getByText('This case is closed: somebody was sent.').waitFor();
  expect(await visit.textContent()).toContain('Key under the third pot');
  expect(await kept(van.page)).toContain('third pot');
  await show(calls.page, 'Fernhollow');
  await calls.page.getByRole('button', { name: 'Open it again' }).click();
  await calls.page.getByText('This case is closed').waitFor({ state: 'detached' });

  await visit.getByText('Close the case').click();
  await visit.getByRole('button', { name: 'settled on the phone' }).click();
  await van.page.locator('#search').waitFor();
  // closed, there is nothing to get in for any more
  expect(await kept(van.page)).not.toContain('third pot');
  await show(calls.page, 'Fernhollow');
  await calls.page.getByText('This case is closed: settled on the phone.').waitFor();
  expect(calls.complaints).toEqual([]);
  await van.context.close();
  await calls.context.close();
});

test('on a danger sign the decision is to stop, and the sign stands before the visit', async () => {
  const calls = await here.visit(desk);
  await signIn(calls.page, here.url, agent);
  const ref = await openCase(calls.page, 'The wet board');
  await show(calls.page, 'The wet board');
  await settled(calls.page);
  await answerOne(calls.page, 'danger', ['wet-electrics']);
  await calls.page.locator('.stop-sign').waitFor();
  const panel = calls.page.locator('.agent-panel');
  const decided = await calls.page.locator('.decided .decision').textContent();
  expect(decided).toMatch(/^Stop\..*Priority: urgent/);
  expect(await panel.textContent()).not.toContain('nothing is decided');
  await giveTo(calls.page, ref, technician.name);

  // the address of a case opens it for whoever may see it, on a computer that has not held it yet
  const own = await here.visit(desk);
  await signIn(own.page, here.url, owner);
  await own.page.goto(`${here.url}/case/${ref}`);
  await own.page.locator('.stop-sign').waitFor();
  await own.page.getByText('Kept here and on the server.').waitFor({ state: 'attached' });
  await own.context.close();

  const van = await here.visit(phone);
  await signIn(van.page, here.url, technician);
  await show(van.page, 'The wet board');
  const visit = van.page.locator('.visit');
  await visit.locator('.decision').filter({ hasText: 'Stop.' }).waitFor();
  expect(await van.page.locator('.column.ask > *').first().getAttribute('class')).toBe('stop-sign');

  await panel.getByRole('button', { name: 'referred to others' }).click();
  await panel.getByRole('button', { name: 'A danger sign stands' }).click();
  await show(calls.page, 'The wet board');
  const closed = calls.page.getByText('This case is closed: referred to others.');
  await closed.waitFor();
  // an answer opens it again, and it says so no more
  await calls.page
    .getByRole('button', { name: 'That is not so, or it was made safe since. Change my answer' })
    .click();
  await settled(calls.page);
  await answerOne(calls.page, 'danger', []);
  await closed.waitFor({ state: 'detached' });
  // who signs out leaves the device to others
  await visit.getByText('Not known', { exact: false }).first().waitFor();
  expect(await kept(van.page)).toContain('callBack');
  await van.page.goto(`${here.url}/desk`);
  await van.page.getByRole('button', { name: /^Sign .* out$/ }).click();
  await van.page.getByLabel('E-mail').waitFor();
  expect(await kept(van.page)).toBe('[]');
  expect([...calls.complaints, ...van.complaints]).toEqual([]);
  await van.context.close();
  await calls.context.close();
});
