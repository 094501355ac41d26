import { describe, expect, it } from 'vitest';
import type { FreeFeatures } from '../../shared/work/features.ts';
import { proveJobs } from '../../shared/work/prove.ts';
import { readWork } from '../../shared/work/read.ts';
import { changed, placed, work } from './files.ts';
import { plant } from './made-world.ts';
import { blocks } from './unsafe.ts';

/** The proof on one kind of plant at a time: which jobs can be there, what it counts, how it tells a breach. */
const kind = (differs: Partial<FreeFeatures> = {}) =>
  plant({ secondValve: false, bleed: false, ...differs });
const proofOf = (job: string, ...kinds: ReturnType<typeof kind>[]) =>
  proveJobs(work, placed, kinds, 'breaks', [job]);

describe('a job is proved on the plants where its place can be', () => {
  it.each<[string, Partial<FreeFeatures>, boolean]>([
    ['change-sediment', {}, true],
    ['change-sediment', { bleed: true }, true],
    ['change-carbon', { bleed: true }, true],
    // only a filter's housing has a bleed
    ['change-check-valve', { bleed: true }, false],
    ['change-check-valve', {}, true],
    ['change-lamp', { uv: 'here' }, true],
    ['change-lamp', { uv: 'after' }, false],
    ['change-sediment', { uv: 'here' }, false],
    // nothing shuts off a pump from the tank but what stands before it, and no lamp stands there
    ['change-pump', { supply: 'tank-cock' }, true],
    ['change-pump', { supply: 'valve' }, false],
    ['change-pump', { supply: 'tank-cock', uv: 'before' }, false],
    ['change-pump', { supply: 'tank-cock', pump: false }, false],
    ['clean-strainer', { supply: 'valve', strainer: true }, false],
    ['clean-strainer', { supply: 'tank-cock', strainer: true }, true],
    ['set-precharge', { vessel: 'inside', control: 'pressure-switch' }, true],
    ['set-precharge', { vessel: 'behind', control: 'pressure-switch' }, false],
    ['set-precharge', { vessel: 'inside', pump: false }, false],
    ['desludge-tank', { supply: 'tank-cock' }, true],
    ['desludge-tank', { supply: 'tank-cock', uv: 'before' }, false],
    // behind the house stands neither lamp nor valve
    ['flush-line', { far: false }, true],
    ['flush-line', { far: true }, false],
    ['flush-line', { far: false, uv: 'before' }, true],
    ['flush-line', { far: false, uv: 'after' }, false],
  ])('%s with %j: %s', (job, differs, can) => {
    const { sheets, states, findings } = proofOf(job, kind(differs));
    expect([sheets, states > 0]).toEqual(can ? [1, true] : [0, false]);
    // a job that fits no plant at all is told
    expect(findings.map(({ message, features, path }) => [message, features, path])).toEqual(
      can ? [] : [[`${job}: can never be finished`, null, []]],
    );
  });
});

describe('what a proof counts', () => {
  it('plants that give the same sheet are explored once, others each', () => {
    const one = proofOf('change-sediment', kind());
    expect(proofOf('change-sediment', kind(), kind())).toMatchObject({
      sheets: 1,
      states: one.states,
    });
    const two = proofOf('change-sediment', kind(), kind({ bleed: true }));
    expect(two.sheets).toBe(2);
    expect(two.states).toBeGreaterThan(one.states);
    const mains = proofOf('change-sediment', kind(), kind({ mains: true }));
    expect(mains.sheets).toBe(2);
  });

  it('jobs with the same steps share a proof', () => {
    const alone = proveJobs(work, placed, [kind()], 'breaks', ['change-sediment']);
    const twice = proveJobs(work, placed, [kind()], 'breaks', [
      'change-sediment',
      'change-sediment',
    ]);
    expect(twice).toEqual(alone);
  });
});

describe('how a breach is told', () => {
  const broken = readWork(changed([[blocks, /does: \[shut-supply\]/g, 'does: []']]));
  it('once a job, with file, line, step, kind of plant and the way there', () => {
    const kinds = [kind(), kind({ bleed: true })];
    const { findings } = proveJobs(broken.work, broken.placed, kinds, 'breaks', [
      'change-sediment',
    ]);
    const untrue = findings.filter(({ message }) => message.includes('says "isolated"'));
    const steps = untrue.map(({ message }) => message.split(':')[0]);
    expect(new Set(steps).size).toBe(steps.length);
    const [first] = untrue;
    expect(first).toMatchObject({
      job: 'change-sediment',
      file: blocks,
      features: { supply: 'valve' },
    });
    expect(first?.line).toBeGreaterThan(1);
    expect(first?.message).toBe(
      `${steps[0]}: says "isolated" when it is not so; the way there: ${first?.path.join(' → ')}`,
    );
    expect(steps[0]).toMatch(/^change-sediment › /);
  });

  it('for every job that it stands in', () => {
    const both = ['change-sediment', 'change-check-valve'];
    const { findings } = proveJobs(broken.work, broken.placed, [kind()], 'breaks', both);
    expect([...new Set(findings.map(({ job }) => job))]).toEqual(both);
  });
});
