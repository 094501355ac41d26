import { randomUUID } from 'node:crypto';
import { expect, test } from 'vitest';
import { readyMade } from '../../shared/plant/ready-made.ts';
import { around } from './around.ts';
import { sent, signIn } from './at-desk.ts';
import { desk } from './pages.ts';
import { agent } from './site.ts';

const here = around();

test('a danger sign told elsewhere stands before whatever page of the case is open: the link, the plant, a job', async () => {
  const { page, context, complaints } = await here.visit(desk);
  await signIn(page, here.url, agent);
  const plant = { ...readyMade.find(({ id }) => id === 'two-stages')?.plant, name: 'Smoke' };
  const { ref } = (await sent(page, 'POST', '/api/desk/cases', { plant })) as { ref: string };
  const tell = (danger: readonly string[]) =>
    sent(page, 'POST', `/api/desk/cases/${ref}/answers`, {
      ...{ answerId: randomUUID(), question: 'danger', value: danger },
    });
  const sign = page.locator('.stop-sign');
  for (const [path, stands] of [
    ['hand-over', 'h1'],
    ['plant', '.line-editor'],
    ['work/clean-outlets/house', '.step'],
  ] as const) {
    await tell([]);
    await page.goto(`${here.url}/case/${ref}/${path}`);
    await page.locator(stands).first().waitFor();
    expect(await sign.count()).toBe(0);
    await tell(['burning']);
    await sign.waitFor();
    await expect.poll(() => page.evaluate(() => scrollY)).toBe(0);
    // no step of a job is worked through beside it
    expect(await page.locator('.step').count()).toBe(0);
  }
  expect(complaints).toEqual([]);
  await context.close();
});
