import { describe, expect, it } from 'vitest';
import { sheetOf } from '../../shared/work/sheet.ts';
import { work } from './files.ts';
import { jobsOnReadyMade } from './jobs-on-ready-made.ts';

const sheets = jobsOnReadyMade.map(
  ({ job, plant, part, features }) =>
    [`${job} on ${plant.name}, ${part}`, sheetOf(work, job, features).steps] as const,
);
const turnsOff = sheets.filter(([, steps]) =>
  steps.some(({ makes }) => makes.includes('isolated')),
);

describe('what to have ready', () => {
  it.each(turnsOff)('%s: all of it is named before the water goes off', (_, steps) => {
    const gathering = steps.findIndex(({ gathers }) => gathers);
    const off = steps.findIndex(({ makes }) => makes.includes('isolated'));
    const needing = steps.findIndex(({ tools, parts }) => tools.length + parts.length > 0);
    expect(gathering).toBeGreaterThanOrEqual(0);
    expect(gathering).toBeLessThan(off);
    expect(gathering).toBeLessThanOrEqual(needing);
  });
});
