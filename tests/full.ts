import { appendFileSync } from 'node:fs';
import { relative } from 'node:path';
import { expect } from 'vitest';

/** Whether the tests run at their full figures (`npm run test:full`). */
export const full = process.env.GAUGEWALK_FULL === '1';

/** Where the full run gathers what it measured, for docs/measured.md (bench/measured.ts). */
const MEASURED = '.measured.jsonl';

/** Writes down a figure of the full run. `wanted` says what was to be reached: "≤ 2 %". */
export function measured(name: string, value: number | string, unit: string, wanted = ''): void {
  if (!full) return;
  const from = relative(process.cwd(), expect.getState().testPath ?? '').replaceAll('\\', '/');
  appendFileSync(MEASURED, `${JSON.stringify({ name, value, unit, wanted, from })}\n`);
}
