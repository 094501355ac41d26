import { randomUUID } from 'node:crypto';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { readyMade } from '../../shared/plant/ready-made.ts';
import { jobLog } from '../../shared/work/log.ts';
import { around } from './around.ts';
import { giveTo, sent, signIn } from './at-desk.ts';
import { finger } from './hands.ts';
import { armed, desk, keptForOffline, phone } from './pages.ts';
import { doJob } from './person.ts';
import { agent, technician } from './site.ts';

const here = around();

const stepOf = (page: Page): Promise<string | null> =>
  page.locator('.step').getAttribute('data-step');

test('a job goes on at another phone where it stood, after a look at what is made; nothing counts twice', async () => {
  const calls = await here.visit(desk);
  await signIn(calls.page, here.url, agent);
  const plant = { ...readyMade[4]?.plant, name: 'Two phones' };
  const opened = { plant, audience: 'agent', language: 'en' };
  const { ref, id, readId } = (await sent(calls.page, 'POST', '/api/desk/cases', opened)) as {
    ref: string;
    id: string;
    readId: string;
  };
  const path = `/api/desk/cases/${ref}`;
  for (const [question, value] of [
    ['danger', []],
    ['complaint', ['weak']],
  ]) {
    const answer = { answerId: randomUUID(), question, value };
    await sent(calls.page, 'POST', `${path}/answers`, answer);
  }
  await giveTo(calls.page, ref, technician.name);
  await calls.page.goto(`${here.url}/case/${ref}`);
  await calls.page.locator('.case').waitFor();

  const first = await here.visit(phone);
  await signIn(first.page, here.url, technician);
  await first.page.goto(`${here.url}/case/${ref}/work/change-sediment/sediment-1`);
  const begun = await doJob(first.page, [], finger, 7);
  const stood = await stepOf(first.page);

  // at the desk stands what is done there, as it is done
  const atWork = calls.page.locator('.at-work');
  await atWork.getByText(/^Step 8 of \d+\. Technician is at it\. Last step/).waitFor();
  expect(await atWork.textContent()).toContain('Change the sediment cartridge · sediment-1');

  // without a network it goes on, and is sent later
  await keptForOffline(first.page);
  await first.context.setOffline(true);
  await doJob(first.page, [], finger, 1);

  const second = await here.visit(phone);
  // who only reads the case sees it and cannot go on with it
  await second.page.goto(`${here.url}/c/${readId}`);
  await second.page.locator('.at-work').waitFor();
  expect(await second.page.locator('.at-work a').count()).toBe(0);
  await second.page.goto(`${here.url}/c/${id}`);
  await second.page.locator('.at-work a').click();
  await second.page.locator('.still-so').waitFor();
  const said = await second.page.locator('.still-so').textContent();
  expect(said).toMatch(/plug out or switch locked – (this minute|1 minute ago)/);
  // nothing else is offered before that was looked at
  expect(await second.page.getByText('Take the last tick back').count()).toBe(0);
  await armed(second.page, '.still-so[aria-busy="false"]');
  await finger.press(second.page, second.page.locator('.still-so .tick-button'));
  await second.page.locator(`.step[data-step="${stood}"]`).waitFor();
  await doJob(second.page, [], finger, 2);
  const on = await stepOf(second.page);
  await calls.page.getByText('Somebody with the link is at it.').waitFor();
  // the desk cannot look: to go on with it there, somebody at the plant has looked and told it
  await calls.page.locator('.at-work a').click();
  await calls.page.getByRole('button', { name: /^Yes, somebody .* looked .* told me$/ }).waitFor();
  await calls.page.goBack();
  await calls.page.locator('.at-work').waitFor();

  // the first one comes back: it hears where the job stands, and that its own tick came too late
  await first.context.setOffline(false);
  await first.page.locator('.still-so').waitFor();
  await first.page.getByText('What you ticked here was not in sight').waitFor();
  await armed(first.page, '.still-so[aria-busy="false"]');
  await finger.press(first.page, first.page.getByRole('button', { name: 'No, something is not' }));
  const lock = first.page.locator('.still-so .choices .choice').filter({ hasText: 'plug out' });
  await finger.press(first.page, lock);
  await second.page.locator('.conditions s').filter({ hasText: 'plug out' }).waitFor();
  expect(await stepOf(second.page)).not.toBe(on);

  const read = (await sent(calls.page, 'GET', path)) as {
    case: { work: Parameters<typeof jobLog>[0] };
  };
  const { work } = read.case;
  expect(new Set(work.map(({ eventId }) => eventId)).size).toBe(work.length);
  const { counted } = jobLog(work, 'change-sediment', 'sediment-1');
  const ticks = counted.flatMap(({ event }) => ('step' in event ? [event.step] : []));
  expect(ticks.slice(0, 7)).toEqual(begun);
  // what was ticked without a network is kept, though it does not count
  expect(work).toHaveLength(counted.length + 1);
  await calls.page.goto(`${here.url}/desk`);
  await calls.page
    .locator('.line')
    .filter({ hasText: 'Two phones' })
    .getByText(/job under way, last step/)
    .waitFor();
  for (const { complaints, context } of [calls, first, second]) {
    expect(complaints.filter((line) => !line.includes('ERR_INTERNET_DISCONNECTED'))).toEqual([]);
    await context.close();
  }
});
