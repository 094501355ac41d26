import { describe, expect, it } from 'vitest';
import { type FreeFeatures, withDerived } from '../../shared/work/features.ts';
import { dangersOf, notInService, notLeftSafe, opening } from '../../shared/work/hazards.ts';
import type { Act, Fact, Found, Shows } from '../../shared/work/schema.ts';
import type { SheetStep } from '../../shared/work/sheet.ts';
import {
  afterAct,
  afterBreak,
  afterLoss,
  canShow,
  isSo,
  supplyShut,
  type World,
  worldAt,
} from '../../shared/work/world.ts';

/** How a plant behaves under a person's hands: common practice of shutting off, locking and relieving. */
const plant = (differs: Partial<FreeFeatures> = {}) =>
  withDerived({
    ...{ supply: 'valve', secondValve: true, far: true, bleed: true, gauge: true, gauges: true },
    ...{ drain: true, vessel: 'none', uv: 'none', carbonAfterUv: false, carbon: false },
    ...{ bypass: false, pump: true, submersible: false, control: 'flow-controller' },
    ...{ mains: false, strainer: false, footValve: false },
    ...differs,
  } as FreeFeatures);
const bare = plant();
const noPump = plant({ pump: false });
const withMains = plant({ mains: true });
const lift = plant({ supply: 'lift' });
const uv = (where: FreeFeatures['uv']) => plant({ uv: where, bypass: true });

const found = (features = bare, ...as: Found[]) => worldAt(features, as, true, true, null);
const passes = worldAt(bare, [], false, true, null);
const wrongSwitch = worldAt(bare, [], true, false, null);
const deceived = (by: Shows['by']) => worldAt(bare, [], true, true, by);
const after = (world: World, acts: readonly Act[], features = bare) =>
  acts.reduce((before, act) => afterAct(before, act, features), world);
const isolated: Act[] = ['lock-power', 'shut-supply'];
/** Locked, shut off, relieved at the tap and cut off from the house: ready to be opened. */
const ready = after(found(), [...isolated, 'open-tap', 'shut-far']);
const opened = after(ready, ['open-wetted']);

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

  it('carries chlorine until it is flushed', () => {
    expect(after(found(), ['dose-line']).dosed).toBe(true);
    expect(after(found(), ['dose-line', 'flush-line']).dosed).toBe(false);
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

describe('a claim is so', () => {
  const cold = { ...found(), lamp: 'cold' as const };
  it.each<[Fact, World, World]>([
    ['pump-dead', after(found(), ['lock-power']), after(found(), ['switch-off'])],
    ['pump-dead', after(wrongSwitch, ['lock-main-switch']), after(wrongSwitch, ['lock-power'])],
    ['no-voltage', after(found(), ['lock-power']), after(deceived('pump'), ['switch-off'])],
    ['supply-shut', after(found(), ['shut-supply']), found()],
    ['far-shut', after(found(), ['shut-far']), found()],
    ['far-shut', after(found(), ['drain-far']), after(found(), ['shut-far', 'open-far'])],
    ['no-pressure', ready, found()],
    ['lamp-cold', cold, { ...cold, lamp: 'hot' }],
    ['lamp-lit', { ...cold, lamp: 'lit' }, cold],
    ['wetted-open', opened, ready],
    ['wetted-closed', ready, opened],
    ['gas-released', after(found(), ['release-gas']), after(found(), ['release-gas', 'fill-gas'])],
    ['tight', found(), opened],
    ['tight', found(), { ...found(), wetted: 'open' }],
    ['air-out', found(), opened],
  ])('%s', (fact, so, not) => {
    expect([isSo(fact, so, bare), isSo(fact, not, bare)]).toEqual([true, false]);
  });

  it('a pump that never starts seems dead when locked, but is not proved free of voltage', () => {
    const seems = after(worldAt(bare, [], true, false, 'pump'), ['lock-power']);
    expect(isSo('pump-dead', seems, bare)).toBe(true);
    expect(isSo('no-voltage', seems, bare)).toBe(false);
    expect(isSo('pump-dead', after(seems, ['switch-off']), bare)).toBe(false);
  });

  it('no pump is a dead pump; a tank below is shut off by the lock alone', () => {
    expect(isSo('pump-dead', found(noPump), noPump)).toBe(true);
    expect(supplyShut(found(lift), lift)).toBe(false);
    expect(supplyShut(after(found(lift), ['lock-power'], lift), lift)).toBe(true);
  });
});

describe('what can be seen', () => {
  const tapOpen = after(found(), ['open-tap']);
  it.each<[Shows['by'], Shows['fact'], World, boolean]>([
    ['gauge', 'pressure', found(), true],
    ['gauge', 'no-pressure', found(), false],
    ['gauge', 'no-pressure', ready, true],
    ['gauge', 'pressure', ready, false],
    ['gauge', 'no-pressure', deceived('gauge'), true],
    ['gauge', 'no-pressure', deceived('bleed'), false],
    ['tap', 'no-pressure', tapOpen, false],
    ['tap', 'no-pressure', found(), true],
    ['tap', 'no-pressure', after(tapOpen, ['shut-far']), true],
    ['pump', 'pump-dead', tapOpen, false],
    ['pump', 'pump-live', tapOpen, true],
    ['pump', 'pump-dead', after(tapOpen, ['switch-off']), true],
    ['pump', 'pump-live', after(tapOpen, ['switch-off']), false],
    ['pump', 'pump-dead', after(tapOpen, ['shut-supply']), true],
    ['pump', 'pump-dead', found(), true],
    ['pump', 'pump-dead', after(tapOpen, ['shut-far']), true],
    ['pump', 'pump-dead', after(wrongSwitch, ['lock-power', 'open-tap']), false],
    ['tester', 'no-voltage', after(found(), ['lock-power']), true],
    ['tester', 'no-voltage', after(wrongSwitch, ['lock-power']), false],
    ['tester', 'voltage', after(wrongSwitch, ['lock-power']), true],
    ['tester', 'voltage', after(found(), ['lock-power']), false],
  ])('by %s: %s', (by, fact, world, is) => {
    expect(canShow({ by, fact }, world, bare)).toBe(is);
  });

  it('with a cock at the tank, a shut supply does not hide the pump', () => {
    const cock = plant({ supply: 'tank-cock' });
    const tried = after(found(cock), ['open-tap', 'shut-supply'], cock);
    expect(canShow({ by: 'pump', fact: 'pump-dead' }, tried, cock)).toBe(false);
  });

  it('where there is no pump, none is seen to run', () => {
    const open = after(found(noPump), ['open-tap'], noPump);
    expect(canShow({ by: 'pump', fact: 'pump-dead' }, open, noPump)).toBe(true);
  });
});

describe('a danger', () => {
  const electrician = { by: 'electrician' } as SheetStep;
  const technician = { by: 'technician' } as SheetStep;
  const dead = after(found(), ['lock-power']);
  const relieved = { ...ready, lamp: 'cold' as const };
  it.each<[Act, Partial<World>, FreeFeatures['uv'], RegExp | null, SheetStep?]>([
    ['open-wetted', {}, 'none', null],
    ['open-wetted', { power: 'off' }, 'none', /pump can still start/],
    ['open-wetted', { supply: 'cracked' }, 'none', /supply is not shut/],
    ['open-wetted', { pressure: true }, 'none', /under pressure/],
    ['open-wetted', { far: 'open' }, 'none', /drain back/],
    ['open-wetted', { far: 'drained' }, 'none', null],
    ['open-wetted', { lamp: 'hot' }, 'here', /chamber while the lamp/],
    ['open-wetted', { lamp: 'hot' }, 'after', null],
    ['open-live', dead, 'none', null, electrician],
    ['open-live', dead, 'none', /licensed electrician/, technician],
    ['open-live', { power: 'off' }, 'none', /not dead/, electrician],
    ['open-lamp', { lamp: 'cold' }, 'here', null],
    ['open-lamp', { lamp: 'hot' }, 'here', /out of its shield while it is lit or hot/],
    ['open-gas', {}, 'none', null],
    ['open-gas', { pressure: true }, 'none', /gas side/],
    ['release-gas', { pressure: true }, 'none', /gas side/],
    ['release-gas', { power: 'off' }, 'none', /on the vessel while the pump/],
    ['crack-supply', {}, 'none', null],
    ['crack-supply', { wetted: 'open' }, 'none', /part is still open/],
    ['open-supply', { wetted: 'open' }, 'none', /part is still open/],
    ['open-mains', { wetted: 'open' }, 'none', /part is still open/],
    ['power-on', { wetted: 'open' }, 'none', /part is still open/],
    ['power-on', { live: 'open' }, 'none', /live part is still open/],
    ['open-supply', { live: 'open' }, 'none', null],
    ['uv-on', {}, 'here', null],
    ['uv-on', { lampCover: 'open' }, 'here', /out of its shield/],
    ['uv-on', { wetted: 'open' }, 'here', /chamber is open/],
    ['uv-on', { wetted: 'open' }, 'after', null],
    ['dose-line', { lamp: 'lit' }, 'after', /lamp is lit/],
    ['dose-line', { lamp: 'lit' }, 'here', /lamp is lit/],
    ['dose-line', { lamp: 'lit' }, 'before', null],
    ['dose-line', { lamp: 'cold' }, 'here', null],
    ['shut-tap', { pressure: true }, 'none', null],
  ])('%s with %j (lamp %s): %s', (act, differs, where, says, step) => {
    const wrong = dangersOf(act, step ?? null, { ...relieved, ...differs }, uv(where));
    if (says === null) expect(wrong).toEqual([]);
    else expect(wrong).toEqual([expect.stringMatching(says)]);
  });
});

describe('an end', () => {
  const service = found(uv('after'));
  it('leaves nothing to do where all is in service', () => {
    expect(notInService(found(), bare)).toEqual([]);
    expect(notInService(service, uv('after'))).toEqual([]);
    expect(notInService({ ...found(), power: 'off' }, noPump)).toEqual([]);
    expect(notInService(found(withMains), withMains)).toEqual([]);
  });

  it.each<[Partial<World>, RegExp]>([
    [{ power: 'locked' }, /power of the pump off/],
    [{ supply: 'cracked' }, /not fully open/],
    [{ second: 'shut' }, /second valve/],
    [{ mains: 'shut' }, /mains back-up/],
    [{ far: 'shut' }, /house shut off/],
    [{ tap: 'open' }, /a tap open/],
    [{ drain: 'open' }, /drain open/],
    [{ bypass: 'open' }, /bypass open/],
    [{ lamp: 'cold' }, /lamp off/],
    [{ lampCover: 'open' }, /out of its shield/],
    [{ wetted: 'open' }, /with a part open/],
    [{ live: 'open' }, /live part open/],
    [{ gas: 'released' }, /without its gas/],
    [{ gasValve: 'open' }, /without its gas/],
    [{ tank: 'open' }, /tank open/],
    [{ air: true }, /air in the line/],
    [{ leaksChecked: false }, /no leak check/],
    [{ dosed: true }, /chlorine left/],
  ])('as done with %j is told, and nothing else', (differs, says) => {
    const features = plant({ uv: 'after', mains: true });
    const wrong = notInService({ ...found(features), ...differs }, features);
    expect(wrong).toEqual([expect.stringMatching(says)]);
  });

  const left = { ...opened, lamp: 'cold' as const };
  it.each<[string, Partial<World>, RegExp | null]>([
    ['a part open, all locked and shut', {}, null],
    ['a part open, the pump only off', { power: 'off' }, /supply or pump not locked/],
    ['a part open, the supply open', { supply: 'open' }, /supply or pump not locked/],
    ['all closed, nothing locked', { wetted: 'closed', power: 'on', supply: 'open' }, null],
    ['a live part open but dead', { live: 'open' }, null],
    ['a live part open', { wetted: 'closed', live: 'open', power: 'off' }, /live part open/],
    ['the lamp out, but dark', { lampCover: 'open' }, null],
    ['the lamp out and lit', { lampCover: 'open', lamp: 'lit' }, /lamp lit outside/],
    ['the lamp lit in its shield', { lamp: 'lit' }, null],
    ['the tank open', { tank: 'open' }, /tank open/],
  ])('handed over with %s', (_, differs, says) => {
    const wrong = notLeftSafe({ ...left, ...differs }, bare);
    expect(wrong).toEqual(says === null ? [] : [expect.stringMatching(says)]);
  });
});
