import { describe, expect, it } from 'vitest';
import type { FreeFeatures } from '../../shared/work/features.ts';
import { opening } from '../../shared/work/hazards.ts';
import type { Act, Found } from '../../shared/work/schema.ts';
import { type World, worldAt } from '../../shared/work/world.ts';
import {
  after,
  bare,
  deceived,
  found,
  isolated,
  lift,
  opened,
  passes,
  ready,
  uv,
  withMains,
} from './made-world.ts';

describe('pressure in the section worked on', () => {
  it.each<[string, World, Act[], boolean]>([
    ['stands when nothing was done', found(), [], true],
    ['stays when only the tap is opened', found(), ['open-tap'], true],
    ['stays behind a shut valve until something lets it out', found(), isolated, true],
    ['goes at an open tap', found(), [...isolated, 'open-tap'], false],
    ['goes at the bleed', found(), [...isolated, 'press-bleed'], false],
    ['goes at the drain', found(), [...isolated, 'open-drain'], false],
    ['stays where the tap is cut off', found(), [...isolated, 'shut-far', 'open-tap'], true],
    ['goes through the drained house', found(), [...isolated, 'drain-far', 'open-tap'], false],
    ['stays behind a blocked way to the tap', deceived('tap'), [...isolated, 'open-tap'], true],
    ['stays behind a plugged bleed', deceived('bleed'), [...isolated, 'press-bleed'], true],
    ['stays behind a plugged drain', deceived('drain'), [...isolated, 'open-drain'], true],
    [
      'goes at the bleed though the tap is blocked',
      deceived('tap'),
      [...isolated, 'press-bleed'],
      false,
    ],
    [
      'goes at the drain though the bleed is plugged',
      deceived('bleed'),
      [...isolated, 'open-drain'],
      false,
    ],
    ['comes back through a valve that passes', passes, [...isolated, 'open-tap'], true],
    ['is held by the second valve', passes, [...isolated, 'shut-second-valve', 'open-tap'], false],
    [
      'comes back when that is opened',
      passes,
      [...isolated, 'shut-second-valve', 'open-tap', 'open-second-valve'],
      true,
    ],
    [
      'comes back when the valve is cracked',
      found(),
      [...isolated, 'open-tap', 'crack-supply'],
      true,
    ],
    [
      'comes back when the valve is opened',
      found(),
      [...isolated, 'open-tap', 'open-supply'],
      true,
    ],
    [
      'does not come back when the tap is shut',
      found(),
      [...isolated, 'open-tap', 'shut-tap'],
      false,
    ],
    ['cannot stand in an open part', ready, ['open-wetted'], false],
    [
      'is let back once the part is closed and the supply open',
      ready,
      ['open-wetted', 'close-wetted', 'open-supply'],
      true,
    ],
  ])('%s', (_, world, acts, stands) => {
    expect(after(world, acts).pressure).toBe(stands);
  });

  it('is fed by the mains back-up until that is shut too', () => {
    const acts: Act[] = [...isolated, 'open-tap'];
    expect(after(found(withMains), acts, withMains).pressure).toBe(true);
    expect(after(found(withMains), [...acts, 'shut-mains'], withMains).pressure).toBe(false);
    const reopened = after(found(withMains), [...acts, 'shut-mains', 'open-mains'], withMains);
    expect(reopened.pressure).toBe(true);
  });

  it('is not fed from a tank below once the pump is locked, however the valve is', () => {
    const leaky = worldAt(lift, [], false, true, null);
    expect(after(leaky, ['lock-power', 'open-tap'], lift).pressure).toBe(false);
    expect(after(leaky, ['switch-off', 'open-tap'], lift).pressure).toBe(true);
  });

  it('is not held up by a lowered tank, even behind a valve that passes', () => {
    expect(after(passes, ['lock-power', 'lower-tank', 'open-tap']).pressure).toBe(false);
  });
});

describe('how a job finds the plant', () => {
  it.each<[string, Found[], FreeFeatures['uv'], Partial<World>]>([
    [
      'in service',
      [],
      'after',
      {
        power: 'on',
        supply: 'open',
        lamp: 'lit',
        bypass: 'shut',
        untreated: false,
        pressure: true,
      },
    ],
    [
      'switched off',
      ['power-off'],
      'none',
      { power: 'off', supply: 'open', lamp: 'cold', untreated: false },
    ],
    ['shut off', ['supply-shut'], 'none', { power: 'on', supply: 'shut' }],
    ['lamp dark', ['uv-off'], 'after', { lamp: 'cold', untreated: true }],
    ['by-passed', ['bypass-open'], 'after', { lamp: 'lit', bypass: 'open', untreated: true }],
    ['unsafe', ['unsafe-water'], 'none', { untreated: true }],
    ['without a lamp, none is missed', ['uv-off'], 'none', { untreated: false }],
    [
      'by-passing filters alone leaves nothing untreated',
      ['bypass-open'],
      'none',
      { bypass: 'open', untreated: false },
    ],
  ])('%s', (_, as, where, is) => {
    expect(found(uv(where), ...as)).toMatchObject(is);
  });

  it('has a bypass open only where there is a bypass, and mains only where there are mains', () => {
    expect(found(bare, 'bypass-open').bypass).toBe('shut');
    expect(found(bare).mains).toBe('shut');
    expect(found(withMains).mains).toBe('open');
  });
});

describe('an act', () => {
  it.each<[Act, Act, keyof World]>([
    ['shut-supply', 'open-supply', 'supply'],
    ['shut-second-valve', 'open-second-valve', 'second'],
    ['shut-far', 'open-far', 'far'],
    ['open-tap', 'shut-tap', 'tap'],
    ['open-drain', 'shut-drain', 'drain'],
    ['open-bypass', 'shut-bypass', 'bypass'],
    ['open-wetted', 'close-wetted', 'wetted'],
    ['open-live', 'close-live', 'live'],
    ['open-lamp', 'close-lamp', 'lampCover'],
    ['open-gas', 'close-gas', 'gasValve'],
    ['release-gas', 'fill-gas', 'gas'],
    ['open-tank', 'close-tank', 'tank'],
    ['lock-power', 'power-on', 'power'],
  ])('%s changes the plant, and %s puts it back', (act, back, what) => {
    const before = found()[what];
    expect(after(found(), [act])[what]).not.toBe(before);
    expect(after(found(), [act, back])[what]).toBe(before);
  });

  // Common practice: what lets water, current, light, gas or chlorine at a person is cautioned before it is done.
  it.each<Act>([
    ...(['open-wetted', 'open-live', 'open-lamp', 'open-gas', 'release-gas', 'open-tank'] as const),
    ...(['dose-line', 'dose-tank'] as const),
  ])('%s wants a caution', (act) => {
    expect(opening).toContain(act);
  });
});

describe('the lamp', () => {
  const lamp = (world: World, ...acts: Act[]) => after(world, acts, uv('here')).lamp;
  it('is hot when put out, cold only after the wait, and no wait cools a lit one', () => {
    expect(lamp(found(uv('here')), 'uv-off')).toBe('hot');
    expect(lamp(found(uv('here')), 'uv-off', 'uv-cool')).toBe('cold');
    expect(lamp(found(uv('here')), 'uv-cool')).toBe('lit');
    expect(lamp(found(uv('here'), 'uv-off'), 'uv-off')).toBe('cold');
    expect(lamp(found(uv('here'), 'uv-off'), 'uv-on')).toBe('lit');
  });
});

describe('water that reaches the house', () => {
  const dark = found(uv('after'), 'uv-off');
  const clean = { ...dark, untreated: false };
  it.each<[string, World, Act[], FreeFeatures['uv'], boolean]>([
    ['is untreated once it runs past a dark lamp', clean, ['run-water'], 'after', true],
    ['is untreated once a tap runs past a dark lamp', clean, ['open-tap'], 'after', true],
    ['stays as it is while nothing runs', clean, ['open-drain'], 'after', false],
    [
      'stays as it is while the house is shut off',
      clean,
      ['shut-far', 'run-water'],
      'after',
      false,
    ],
    [
      'stays as it is while nothing feeds the line',
      clean,
      [...isolated, 'run-water'],
      'after',
      false,
    ],
    [
      'is untreated round the lamp through the bypass',
      { ...clean, lamp: 'lit' },
      ['open-bypass', 'run-water'],
      'after',
      true,
    ],
    ['is treated by the lit lamp', { ...clean, lamp: 'lit' }, ['run-water'], 'after', false],
    ['needs no lamp where there is none', clean, ['run-water'], 'none', false],
    ['is touched by opening a part beyond the lamp', clean, ['open-wetted'], 'before', true],
    ['is touched by opening the chamber itself', clean, ['open-wetted'], 'here', true],
    [
      'is not touched by opening a part that the lamp stands behind',
      clean,
      ['open-wetted'],
      'after',
      false,
    ],
    ['stays untreated until it is flushed', dark, ['dose-line'], 'after', true],
    [
      'is made good by dose and flush under the lit lamp',
      { ...dark, lamp: 'lit' },
      ['dose-line', 'flush-line'],
      'after',
      false,
    ],
    [
      'is made good by a dose in the tank as well',
      { ...dark, lamp: 'lit' },
      ['dose-tank', 'flush-line'],
      'after',
      false,
    ],
    [
      'is not made good by a flush without a dose',
      { ...dark, lamp: 'lit' },
      ['flush-line'],
      'after',
      true,
    ],
    ['is not made good with the lamp dark', dark, ['dose-line', 'flush-line'], 'after', true],
    [
      'is not made good through the bypass',
      { ...dark, lamp: 'lit', bypass: 'open' },
      ['dose-line', 'flush-line'],
      'after',
      true,
    ],
    [
      'is made good by dose and flush where there is no lamp',
      dark,
      ['dose-line', 'flush-line'],
      'none',
      false,
    ],
  ])('%s', (_, world, acts, where, is) => {
    expect(after(world, acts, uv(where)).untreated).toBe(is);
  });

  it.each([
    ['not by what came from the tank through carbon', 'dose-tank', true, true],
    ['by what came from the tank without carbon', 'dose-tank', false, false],
    ['by what was poured in behind the carbon', 'dose-line', true, false],
  ] as const)('the pipes are made good %s', (_, act, carbon, is) => {
    const flushed = after(dark, [act, 'flush-line'], { ...uv('none'), carbon });
    expect(flushed).toMatchObject({ untreated: is, dosed: null });
  });

  it('carries chlorine until it is flushed', () => {
    expect(after(found(), ['dose-line']).dosed).toBe('line');
    expect(after(found(), ['dose-line', 'flush-line']).dosed).toBeNull();
  });
});

describe('a leak check', () => {
  it('says something only under pressure, and opening a part undoes it', () => {
    expect(after(found(), ['check-leaks']).leaksChecked).toBe(true);
    expect(opened.leaksChecked).toBe(false);
    expect(after(opened, ['close-wetted', 'check-leaks']).leaksChecked).toBe(false);
    const refilled: Act[] = ['close-wetted', 'open-supply', 'check-leaks'];
    expect(after(opened, refilled).leaksChecked).toBe(true);
  });

  it('an opened part leaves air in the line until it is let out', () => {
    expect(opened.air).toBe(true);
    expect(after(opened, ['close-wetted', 'let-air-out']).air).toBe(false);
  });
});
