import type { Page } from 'playwright-core';
import type { agent } from './site.ts';

/** Signs in at the desk; the list of cases is on the screen. */
export async function signIn(
  page: Page,
  url: string,
  { email, password }: Pick<typeof agent, 'email' | 'password'>,
): Promise<void> {
  await page.goto(`${url}/desk`);
  await page.getByLabel('E-mail').fill(email);
  await page.getByLabel('Password').fill(password);
  await page.keyboard.press('Enter');
  await page.locator('#search').waitFor();
}

/** Sends JSON as the person signed in on the page; gives the JSON back, null for none. */
export const sent = (page: Page, method: string, path: string, body?: unknown): Promise<unknown> =>
  page.evaluate(
    async ({ method, path, body }) => {
      const headers = { 'content-type': 'application/json' };
      const answer = await fetch(path, { method, headers, ...(body ? { body } : {}) });
      const text = await answer.text();
      return text === '' ? null : JSON.parse(text);
    },
    { method, path, body: body === undefined ? undefined : JSON.stringify(body) },
  );

/** Gives a case to somebody by name. */
export async function giveTo(page: Page, ref: string, name: string): Promise<void> {
  const { people } = (await sent(page, 'GET', '/api/desk/people')) as {
    people: { id: string; name: string }[];
  };
  const to = people.find((one) => one.name === name)?.id;
  await sent(page, 'POST', `/api/desk/cases/${ref}/assign`, { to });
}
