import { describe, expect, it } from 'vitest';
import {
  dropBetween,
  dropUncertaintyBar,
  gaugeUncertainty,
  permissibleErrorBar,
} from '../../shared/hydraulics/gauge.ts';

const gauge = { rangeBar: 10, classPercent: 2.5, divisionBar: 0.2 };
const fine = { ...gauge, divisionBar: 1e-9 };

describe('gauges against published figures', () => {
  it.each([
    ['0–10 bar, class 1.6', 10, 1.6, 0.16],
    // Read on a scan that prints 0.26; its own working, 6 × 1.0/100, gives 0.06.
    ['−1 to 5 bar, class 1.0', 6, 1, 0.06],
    ['0–10 bar, class 2.5', 10, 2.5, 0.25],
  ])('%s may err by %d·%d %% = ±%d bar (EN 837-1:1996)', (_, rangeBar, classPercent, bar) => {
    expect(permissibleErrorBar({ rangeBar, classPercent })).toBeCloseTo(bar, 12);
  });

  it('US Army SM0486: 10 psig out at 0–500 is 2 % of span', () => {
    expect(permissibleErrorBar({ rangeBar: 500, classPercent: 2 })).toBeCloseTo(10, 12);
  });

  it('the class 1.0 of −1 to 5 bar is not the 0.26 bar that a scan shows', () => {
    expect(permissibleErrorBar({ rangeBar: 6, classPercent: 1 })).toBeLessThan(0.1);
  });

  it('JCGM 100:2008: two gauges of 2.5 % have u 0.1443 each, 0.2041 for the difference, U 0.408 bar', () => {
    const u = dropUncertaintyBar([fine, fine], [3, 2.7], { kind: 'two-gauges' });
    expect(Math.abs(u - 0.2041)).toBeLessThan(1e-3);
    const drop = dropBetween([fine, fine], [3, 2.7], { kind: 'two-gauges' });
    expect(Math.abs(drop.uncertaintyBar - 0.408)).toBeLessThan(1e-3);
    // A "filter drop" of 0.3 bar can be nothing.
    expect(drop.tooSmall).toBe(true);
  });

  it('JCGM 100:2008, 4.3.7: a half-width of 0.40 has u 0.23 (example from memory)', () => {
    const { readingBar } = gaugeUncertainty({ ...gauge, divisionBar: 0.8 });
    expect(Math.abs(readingBar - 0.23)).toBeLessThan(0.002);
  });

  it('offset and gain together are the class at full scale', () => {
    const { offsetBar, gain } = gaugeUncertainty(gauge);
    expect(Math.hypot(offsetBar, gain * gauge.rangeBar)).toBeCloseTo(0.25 / Math.sqrt(3), 12);
  });
});

describe('what is known of a drop', () => {
  const open: [number, number] = [3.1, 2.8];
  const two = dropUncertaintyBar([gauge, gauge], open, { kind: 'two-gauges' });
  const removed = dropUncertaintyBar([gauge, gauge], open, {
    kind: 'offsets-removed',
    closedBar: [3.5, 3.4],
  });
  const one = dropUncertaintyBar([gauge, gauge], open, { kind: 'one-gauge' });

  it('one gauge moved between ports is better than two with offsets removed, and those than two as they are', () => {
    // JCGM 100:2008, 5.2.2: a shared error goes out of a difference.
    expect(one).toBeLessThan(removed);
    expect(removed).toBeLessThan(two);
  });

  it('closed readings take the offset out of the drop itself', () => {
    const how = { kind: 'offsets-removed' as const, closedBar: [3.5, 3.3] as [number, number] };
    expect(dropBetween([gauge, gauge], [3.1, 2.9], how).dropBar).toBeCloseTo(0, 12);
    expect(dropBetween([gauge, gauge], [3.1, 2.9], how).tooSmall).toBe(true);
    expect(dropBetween([gauge, gauge], [3.1, 0.9], how)).toMatchObject({ tooSmall: false });
  });

  it('the column between two gauges is no loss', () => {
    const drop = dropBetween([gauge, gauge], [3, 2.8], { kind: 'two-gauges' }, 0.2);
    expect(drop.dropBar).toBeCloseTo(0, 12);
  });
});
