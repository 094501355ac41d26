import { describe, expect, it } from 'vitest';
import type { FreeFeatures } from '../../shared/work/features.ts';
import type { Act, Fact } from '../../shared/work/schema.ts';
import { afterBreak, afterLoss, type World } from '../../shared/work/world.ts';
import {
  after,
  bare,
  found,
  isolated,
  noPump,
  opened,
  ready,
  uv,
  withMains,
} from './made-world.ts';

describe('while nobody watched', () => {
  it('the pump may have been switched on and every valve opened', () => {
    const shut = after(
      found(withMains),
      [...isolated, 'shut-mains', 'open-tap', 'drain-far'],
      withMains,
    );
    expect(afterBreak(shut, withMains)).toEqual([
      { ...shut, power: 'on', supply: 'open', mains: 'open', pressure: true, far: 'drained' },
    ]);
  });

  it('a shut far valve may have been touched or not', () => {
    expect(afterBreak(ready, bare).map(({ far }) => far)).toEqual(['open', 'shut']);
    expect(afterBreak(found(), bare).map(({ far }) => far)).toEqual(['open']);
  });

  it('no power comes without a pump, no mains without mains, no pressure into an open part', () => {
    const [rested] = afterBreak(after(found(noPump), ['lock-power'], noPump), noPump);
    expect(rested).toMatchObject({ power: 'locked', mains: 'shut' });
    expect(afterBreak(opened, bare).map(({ pressure }) => pressure)).toEqual([false, false]);
  });

  it.each<[FreeFeatures['uv'], Act[], World['lamp']]>([
    ['here', ['uv-off'], 'lit'],
    ['here', ['uv-off', 'uv-cool', 'open-lamp'], 'cold'],
    ['none', [], 'cold'],
    ['here', [], 'lit'],
  ])('a lamp (%s) in its shield may have been lit: after %j it is %s', (where, acts, lamp) => {
    expect(afterBreak(after(found(uv(where)), acts, uv(where)), uv(where))[0]?.lamp).toBe(lamp);
  });

  it.each<[Fact, Partial<World>]>([
    ['pump-dead', { power: 'on', pressure: false }],
    ['supply-shut', { supply: 'open', pressure: true }],
    ['far-shut', { far: 'open' }],
    ['no-pressure', { pressure: true }],
  ])('%s found lost is so for the plant', (lost, is) => {
    const before = after(ready, ['open-drain']);
    expect(afterLoss({ ...before, drain: 'shut', tap: 'shut' }, lost, bare)).toMatchObject(is);
  });

  it('without a pump none can have been switched on', () => {
    expect(afterLoss({ ...ready, power: 'off' }, 'pump-dead', noPump).power).toBe('off');
  });

  it('pressure found to be back goes again at an open tap', () => {
    const drained = after(found(), [...isolated, 'open-tap']);
    expect(afterLoss(drained, 'no-pressure', bare).pressure).toBe(false);
  });
});
