import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readyMade } from '../../shared/plant/ready-made.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** The package as `npm pack` makes it from what was built, laid out in another folder. */
describe('the package', () => {
  const folder = mkdtempSync(join(tmpdir(), 'gaugewalk-package-'));
  const home = join(folder, 'package');
  let paths: string[];
  beforeAll(() => {
    execFileSync('npm', ['pack', '--ignore-scripts', '--silent', '--pack-destination', folder], {
      cwd: root,
    });
    execFileSync('tar', ['-xzf', join(folder, 'gaugewalk-0.1.0.tgz'), '-C', folder]);
    const listed = execFileSync('tar', ['-tzf', join(folder, 'gaugewalk-0.1.0.tgz')]).toString();
    paths = listed.trim().split('\n');
    // what npm would install beside it
    symlinkSync(join(root, 'node_modules'), join(home, 'node_modules'));
  });
  afterAll(() => rmSync(folder, { recursive: true }));
  const gaugewalk = (...args: string[]) =>
    spawnSync(process.execPath, [join(home, 'bin', 'gaugewalk.js'), ...args], {
      encoding: 'utf8',
      cwd: folder,
      env: { PATH: process.env.PATH, DATA_DIR: join(folder, 'data') },
    });

  it('holds the program, the rule sets and what people read, and nothing of the making', () => {
    const tops = [...new Set(paths.map((path) => path.split('/')[1]))].sort();
    expect(tops).toEqual(
      [
        ...['CHANGELOG.md', 'LICENSE', 'README.md', 'SECURITY.md', 'bin', 'dist', 'docs'],
        ...['package.json', 'rules'],
      ].sort(),
    );
    expect(paths).toContain('package/dist/web/index.html');
    expect(paths.filter((path) => /\.test\.|\.tsx?$|\.map$/.test(path))).toEqual([]);
    const links = [
      ...readFileSync(join(home, 'README.md'), 'utf8').matchAll(/\]\((docs\/[^)#]+md)/g),
    ];
    expect(links.filter(([, to]) => !existsSync(join(home, to ?? '')))).toEqual([]);
  });

  it('diagnoses a case and keeps a store, away from its checkout', () => {
    const plant = readyMade[3]?.plant;
    const answers = [{ question: 'complaint', value: ['weak'] }];
    writeFileSync(join(folder, 'case.json'), JSON.stringify({ plant, answers }));
    const told = gaugewalk('diagnose', 'case.json', '--json');
    expect(told.stderr).toBe('');
    expect(JSON.parse(told.stdout).causes.length).toBeGreaterThan(20);
    expect(gaugewalk('export', 'store.jsonl')).toMatchObject({ status: 0, stderr: '' });
    expect(existsSync(join(folder, 'data', 'gaugewalk.sqlite'))).toBe(true);
  });
});
