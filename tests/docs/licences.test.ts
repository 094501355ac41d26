import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';

interface Locked {
  readonly version?: string;
  readonly license?: string;
  readonly dev?: boolean;
  /** wanted for development, and by a package that can do without it */
  readonly devOptional?: boolean;
  /** for one kind of machine only */
  readonly optional?: boolean;
}

/** What may be passed on with an MIT program without further ado. */
const fine =
  /^\(?(MIT|MIT-0|ISC|0BSD|Apache-2\.0|BSD-[23]-Clause|BlueOak-1\.0\.0|CC0-1\.0|Unlicense|OFL-1\.1|Python-2\.0|WTFPL)( (OR|AND) .+)?\)?$/;

const { packages } = JSON.parse(readFileSync('package-lock.json', 'utf8')) as {
  packages: Record<string, Locked>;
};
const used = Object.entries(packages)
  .filter(
    ([path, { dev, devOptional, optional }]) => path !== '' && !(dev || devOptional || optional),
  )
  .map(([path, { version = '', license = 'not named' }]) => ({
    name: path.slice(path.lastIndexOf('node_modules/') + 'node_modules/'.length),
    version,
    license,
  }))
  .sort((a, b) => a.name.localeCompare(b.name, 'en') || a.version.localeCompare(b.version, 'en'));

it('everything the program is made of may be passed on with it', () => {
  expect(used.filter(({ license }) => !fine.test(license))).toEqual([]);
  expect(used.length).toBeGreaterThan(20);
});

it('the list of licences is the one of the lockfile (npm run licences makes it anew)', async () => {
  const rows = used.map(({ name, version, license }) => `| ${name} | ${version} | ${license} |`);
  const text = [
    '# Licences of what Gaugewalk is made of',
    '',
    'Gaugewalk itself is under the MIT licence (LICENSE). It runs on these packages, or holds parts of them in its client.',
    'Made from package-lock.json by `npm run licences`; packages used for development only are left out.',
    '',
    '| package | version | licence |',
    '|---|---|---|',
    ...[...new Set(rows)],
    '',
  ].join('\n');
  await expect(text).toMatchFileSnapshot('../../docs/licences.md');
});
