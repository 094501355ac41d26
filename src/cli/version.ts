import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { rulesFolder } from '../rules/read.ts';

/** The program's version, from its package.json. */
export function version(): string {
  const file = join(dirname(rulesFolder()), 'package.json');
  return (JSON.parse(readFileSync(file, 'utf8')) as { version: string }).version;
}
