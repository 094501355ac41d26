import { existsSync } from 'node:fs';
import { requirePackage } from '../system-package.ts';

/** Debian's browser, unless another is named. */
export const executablePath = process.env.CHROMIUM ?? '/usr/bin/chromium';

/** Before the browser tests: there must be a browser. */
export default function setup(): void {
  requirePackage(
    'chromium',
    () => (existsSync(executablePath) ? executablePath : undefined),
    'The screens are tested in a real browser.',
  );
}
