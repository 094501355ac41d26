import { existsSync } from 'node:fs';
import { requirePackage } from '../system-package.ts';

/** Debian's browser without its windows, unless another is named: the same engine for less work. */
export const executablePath = process.env.CHROMIUM ?? '/usr/bin/chromium-headless-shell';

/** Before the browser tests: there must be a browser. */
export default function setup(): void {
  requirePackage(
    'chromium-headless-shell',
    () => (existsSync(executablePath) ? executablePath : undefined),
    'The screens are tested in a real browser.',
  );
}
