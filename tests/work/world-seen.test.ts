import { describe, expect, it } from 'vitest';
import type { FreeFeatures } from '../../shared/work/features.ts';
import { dangersOf, notInService, notLeftSafe } from '../../shared/work/hazards.ts';
import type { Act, Fact, Shows } from '../../shared/work/schema.ts';
import type { SheetStep } from '../../shared/work/sheet.ts';
import { canShow, isSo, supplyShut, type World, worldAt } from '../../shared/work/world.ts';
import {
  after,
  bare,
  deceived,
  found,
  lift,
  noPump,
  opened,
  plant,
  ready,
  uv,
  withMains,
  wrongSwitch,
} from './made-world.ts';

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
    ['power-on', { tap: 'open', far: 'open' }, 'none', /tap is open/],
    ['power-on', { tap: 'open', far: 'drained' }, 'none', /tap is open/],
    ['power-on', { tap: 'open', far: 'shut' }, 'none', null],
    ['power-on', { tap: 'shut', far: 'open' }, 'none', null],
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
    [{ dosed: 'line' }, /chlorine left/],
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
