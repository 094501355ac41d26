import { expect, test } from 'vitest';
import { around } from './around.ts';
import { signIn } from './at-desk.ts';
import { desk, phone } from './pages.ts';
import { owner, technician } from './site.ts';

const here = around();

const rosa = { name: 'Rosa', email: 'rosa@example.org', password: 'four quiet grey herons' };

test('an owner lets somebody in, makes them a technician, gives a new password, and lets them in no more', async () => {
  const { page, context, complaints } = await here.visit(phone);
  await signIn(page, here.url, owner);
  await page.getByRole('link', { name: 'People' }).click();
  await page.locator('.person').nth(2).waitFor();

  const letIn = async (given: typeof rosa): Promise<void> => {
    await page.getByLabel('Name').fill(given.name);
    await page.getByLabel('E-mail').fill(given.email);
    await page.getByLabel('Password', { exact: true }).last().fill(given.password);
    await page.getByRole('button', { name: 'Let in', exact: true }).click();
  };
  const refused = page.getByRole('alert');
  await letIn({ ...rosa, password: 'short' });
  await refused.filter({ hasText: 'The password needs 12 characters or more' }).waitFor();
  await letIn({ ...rosa, email: 'rosa' });
  await refused.filter({ hasText: 'That is no e-mail address' }).waitFor();
  await letIn({ ...rosa, name: ' ' });
  await refused.filter({ hasText: 'Write a name' }).waitFor();
  await letIn({ ...rosa, email: owner.email });
  await refused.filter({ hasText: 'Somebody signs in with this e-mail already' }).waitFor();
  await letIn(rosa);
  const done = page.getByRole('status');
  await done.filter({ hasText: 'Rosa may sign in now' }).waitFor();
  // the form is empty for the next one, and who works by keyboard hears and sees what was done
  expect(await page.getByLabel('Name').inputValue()).toBe('');
  expect(await done.evaluate((it) => it === document.activeElement)).toBe(true);

  const row = page.locator('.person').filter({ hasText: rosa.email });
  await row.locator('summary').click();
  await row.getByLabel('Role').selectOption('technician');
  await done.filter({ hasText: 'Rosa is now: technician' }).waitFor();
  await row.getByLabel('New password').fill('short');
  await row.getByRole('button', { name: 'Set it' }).click();
  await row.getByRole('alert').filter({ hasText: '12 characters' }).waitFor();
  await row.getByLabel('New password').fill('five quiet grey herons');
  await row.getByRole('button', { name: 'Set it' }).click();
  await done.filter({ hasText: 'Rosa has a new password' }).waitFor();

  const hers = await here.visit(desk);
  await signIn(hers.page, here.url, { ...rosa, password: 'five quiet grey herons' });
  // neither new calls nor people are a technician's
  expect(await hers.page.getByRole('link', { name: 'New call' }).count()).toBe(0);
  expect(await hers.page.getByRole('link', { name: 'People' }).count()).toBe(0);
  await hers.page.goto(`${here.url}/desk/people`);
  await hers.page.getByText('Owners say who may sign in').waitFor();

  await row.getByRole('button', { name: 'Let in no more' }).click();
  await row.getByRole('button', { name: 'Let Rosa in no more' }).click();
  await done.filter({ hasText: 'Rosa is let in no more' }).waitFor();
  await row.waitFor({ state: 'detached' });
  await hers.page.reload();
  await hers.page.locator('.sign-in').waitFor();

  // the browser itself writes each refusal to its console
  expect(complaints.filter((text) => !/4(09|22)/.test(text))).toEqual([]);
  await hers.context.close();
  await context.close();
});

test('the last owner stays owner, is told why, and the list shows what still holds', async () => {
  const { page, context } = await here.visit(desk);
  await signIn(page, here.url, owner);
  await page.getByRole('link', { name: 'People' }).click();
  const own = page.locator('.person').filter({ hasText: 'Owner (you)' });
  await own.locator('summary').click();
  await own.getByLabel('Role').selectOption('agent');
  await own.getByRole('alert').filter({ hasText: 'This is the last owner' }).waitFor();
  expect(await own.getByLabel('Role').inputValue()).toBe('owner');
  await own.getByRole('button', { name: 'Let in no more' }).click();
  await own.getByRole('button', { name: 'Let me, Owner, in no more' }).click();
  await own.getByRole('alert').filter({ hasText: 'This is the last owner' }).waitFor();

  // one's own new password ends one's own visit
  await own.getByLabel('New password').fill('another long pass phrase');
  await own.getByRole('button', { name: 'Set it' }).click();
  await page.locator('.sign-in').waitFor();
  await signIn(page, here.url, { ...owner, password: 'another long pass phrase' });
  await context.close();
});

test('once somebody signs out no more cases are asked for, however late the answer is', async () => {
  const { page, context, complaints } = await here.visit(phone);
  await signIn(page, here.url, technician);
  await page.getByText('No cases fit.').waitFor();
  // the server has done it long before the page hears of it
  await page.route('**/sign-out', async (route) => {
    const answer = await route.fetch();
    await new Promise((after) => setTimeout(after, 600));
    await route.fulfill({ response: answer });
  });
  // letters just typed would be searched for a moment later
  await page.getByLabel('Search').pressSequentially('F');
  await page.getByRole('button', { name: /^Sign .* out$/ }).click();
  await page.getByLabel('E-mail').waitFor();
  expect(complaints).toEqual([]);
  await context.close();
});
