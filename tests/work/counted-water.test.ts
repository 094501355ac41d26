import { describe, expect, it } from 'vitest';
import { sheetOf } from '../../shared/work/sheet.ts';
import { work } from './files.ts';
import { jobsOnReadyMade } from './jobs-on-ready-made.ts';

const counting = jobsOnReadyMade
  .map(
    ({ job, plant, part, features }) =>
      [`${job} on ${plant.name}, ${part}`, sheetOf(work, job, features).steps] as const,
  )
  .filter(([, steps]) =>
    steps.some((step) => Object.values(step.answers).some(({ shows }) => shows?.by === 'volume')),
  );

describe('where the water that came tells that the vessel is empty', () => {
  it('there are such sheets', () => expect(counting.length).toBeGreaterThan(0));

  // the litres are those of a full vessel: begun at any lower pressure, or counted late, too little would come
  it.each(counting)('%s: the pump has filled it before any tap is opened', (_, steps) => {
    const filled = steps.findIndex(
      ({ does, tools }) => does.includes('shut-tap') && tools.includes('bucket'),
    );
    const locked = steps.findIndex(({ does }) => does.includes('lock-power'));
    const opened = steps.findIndex(({ does }) => does.includes('open-tap'));
    expect(filled).toBeGreaterThanOrEqual(0);
    expect(filled).toBeLessThan(locked);
    expect(filled).toBeLessThan(opened);
  });
});
