import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { expect, test } from 'vitest';
import { measured } from '../full.ts';
import { around } from './around.ts';
import { settled } from './person.ts';

const here = around();

const KB = 1000;

test('the first load, with the worker and its rule set, weighs at most 110 kB of script and 80 kB of tables and words', async () => {
  // the service worker fetches everything else afterwards; it is kept out to see what the page itself needs
  const { page, context } = await here.visit(
    { width: 360, height: 740, colorScheme: 'light' },
    { serviceWorkers: 'block' },
  );
  const fetched = new Set<string>();
  page.on('request', (request) => fetched.add(new URL(request.url()).pathname));
  context.on('request', (request) => fetched.add(new URL(request.url()).pathname));
  await page.goto(here.url);
  await page.waitForSelector('.start');
  await page.waitForTimeout(1500);
  // a worker's own modules are not told as requests of the page in every browser
  const worker = await page.evaluate(() =>
    performance.getEntriesByType('resource').map(({ name }) => new URL(name).pathname),
  );
  for (const path of worker) fetched.add(path);
  const modules = page
    .workers()
    .map((one) =>
      one.evaluate(() =>
        performance.getEntriesByType('resource').map(({ name }) => new URL(name).pathname),
      ),
    );
  for (const paths of await Promise.all(modules)) for (const path of paths) fetched.add(path);

  const weigh = (fits: RegExp): number =>
    [...fetched]
      .filter((path) => fits.test(path))
      .reduce((sum, path) => {
        const file = readFileSync(join(import.meta.dirname, '../../dist/web', path));
        return sum + gzipSync(file, { level: 9 }).length;
      }, 0);
  const script = weigh(/^\/assets\/.*\.js$/);
  const tables = weigh(/^\/rules\/.*\.json$/);
  process.stdout.write(
    `first load, gzip: script ${(script / KB).toFixed(1)} kB, tables and words ${(tables / KB).toFixed(1)} kB\n`,
  );
  measured('first load, script (gzip)', script / KB, 'kB', '≤ 110');
  measured('first load, tables and words (gzip)', tables / KB, 'kB', '≤ 80');
  expect(script).toBeGreaterThan(50 * KB); // both page and worker were seen
  expect(script).toBeLessThanOrEqual(110 * KB);
  expect(tables).toBeGreaterThan(30 * KB);
  expect(tables).toBeLessThanOrEqual(80 * KB);
  await context.close();
});

test('the policy allows no inline script and no eval, and judging happens in a worker', async () => {
  const { page, context, complaints } = await here.visit({
    width: 1280,
    height: 800,
    colorScheme: 'light',
  });
  const response = await page.goto(`${here.url}/demo`);
  const policy = response?.headers()['content-security-policy'] ?? '';
  expect(policy).toContain("script-src 'self'");
  expect(policy).not.toMatch(/unsafe-(inline|eval)/);
  await settled(page);
  expect(page.workers().map((one) => new URL(one.url()).pathname)).toEqual([
    expect.stringMatching(/^\/assets\/worker-/),
  ]);
  expect(complaints).toEqual([]);
  await context.close();
});
