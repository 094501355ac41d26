import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';

/**
 * What a test needs from the system's packages: found, else installed where we may (Debian, as root), else the run
 * fails naming the package. Never skipped.
 * @param find the thing needed, or undefined while it is not there
 */
export function requirePackage<T>(name: string, find: () => T | undefined, purpose: string): T {
  const found = find();
  if (found !== undefined) return found;
  const missing = `${purpose} Install the package "${name}" (Debian: apt-get install ${name}).`;
  if (process.getuid?.() !== 0 || !existsSync('/usr/bin/apt-get')) throw new Error(missing);
  const apt = (...args: string[]) =>
    execFileSync('apt-get', args, {
      stdio: 'ignore',
      env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
    });
  apt('update');
  apt('install', '-y', '--no-install-recommends', name);
  const installed = find();
  if (installed === undefined) throw new Error(missing);
  return installed;
}
