import { describe, expect, it } from 'vitest';
import { barToPa, PA_PER_PSI } from '../../shared/hydraulics/units.ts';
import {
  drawdownFromTimes,
  drawdownM3,
  gasFromDrawdown,
  mostStartsPerHour,
  runAndRest,
  shortestCycleS,
  startsPerHour,
} from '../../shared/hydraulics/vessel.ts';

const psi = (value: number) => value * PA_PER_PSI;
/** Drawdown in the vessel's own unit of volume, pressures in psi gauge. */
const drawdownPsi = (volume: number, pre: number, low: number, high: number, air = 14.7) =>
  drawdownM3({ volumeM3: volume, prechargePa: psi(pre) }, psi(low), psi(high), psi(air));

describe('vessel drawdown against published figures', () => {
  it('R. Pelikan, The Driller, 2006: 85 gal, 28 psi, 30/50 gives 25.1 gal', () => {
    expect(Math.abs(drawdownPsi(85, 28, 30, 50) - 25.1)).toBeLessThan(0.05);
  });

  it('the same author’s 26.1 gal at 6000 ft is rounded on the way: it is 26.19', () => {
    const exact = drawdownPsi(85, 28, 30, 50, 11.8);
    expect(Math.abs(exact - 26.192)).toBeLessThan(0.002);
    expect(Math.abs(exact - 26.1)).toBeGreaterThan(0.05);
  });

  it('about 0.30 of the volume for 30/50 at 28 psi (nationaldriller.com 86027)', () => {
    expect(Math.abs(drawdownPsi(1, 28, 30, 50) - 0.3)).toBeLessThan(0.01);
  });

  it.each([
    [20, 40, 0.345, 0.366],
    [30, 50, 0.295, 0.309],
    [40, 60, 0.258, 0.268],
  ])(
    '%d/%d psi: fraction %d with 2 psi under cut-in, %d at cut-in (arithmetic)',
    (low, high, under, at) => {
      expect(Math.abs(drawdownPsi(1, low - 2, low, high) - under)).toBeLessThan(1e-3);
      expect(Math.abs(drawdownPsi(1, low, low, high) - at)).toBeLessThan(1e-3);
    },
  );

  it('a vessel that lost most of its charge gives 42 % less (arithmetic)', () => {
    expect(Math.abs(drawdownPsi(85, 10, 30, 50) - 14.52)).toBeLessThan(0.05);
  });

  it('100 L, 1.4 bar, 1.6–3.0 bar gives 32.21 L (arithmetic)', () => {
    const vessel = { volumeM3: 0.1, prechargePa: barToPa(1.4) };
    const m3 = drawdownM3(vessel, barToPa(1.6), barToPa(3), 101_325);
    expect(Math.abs(m3 * 1000 - 32.21)).toBeLessThan(0.02);
  });

  it('a charge over cut-out leaves no room for water, one between gives only what lies above it', () => {
    expect(drawdownPsi(85, 60, 30, 50)).toBe(0);
    expect(drawdownPsi(85, 40, 30, 50)).toBeCloseTo(85 * (1 - 54.7 / 64.7), 6);
  });
});

describe('run and rest', () => {
  it('Washington State DOH Eq. 11-1: its factor 15 is the worst cycle, 4·Vd/Q at half the pump’s flow', () => {
    // 25 gal of working volume at 10 gpm is 6 cycles an hour (Table value Nc = 6).
    const cycleS = shortestCycleS(25, 10 / 60);
    expect(3600 / cycleS).toBeCloseTo(6, 9);
    expect(startsPerHour(runAndRest(25, 10 / 60, 5 / 60))).toBeCloseTo(6, 9);
    // Vt = [(P1+14.7)/(P1−P2)]·15·Qp/Nc with 60/40 psi, 10 gpm, 6 an hour: 93.4 gal.
    expect((74.7 / 20) * 15 * (10 / 6)).toBeCloseTo(93.4, 1);
  });

  it('25.1 gal at 10 gpm: 10.04 min, 5.98 starts an hour', () => {
    const cycleS = shortestCycleS(25.1, 10 / 60);
    expect(cycleS / 60).toBeCloseTo(10.04, 2);
    expect(3600 / cycleS).toBeCloseTo(5.98, 2);
  });

  it('small motors bear 15 starts an hour to ¾ hp and 7.5 above (industry standard, reproduced)', () => {
    expect(mostStartsPerHour(550)).toBe(15);
    expect(mostStartsPerHour(1100)).toBe(7.5);
  });

  it('measured times lead back to the gas that made them', () => {
    const vessel = { volumeM3: 0.024, prechargePa: barToPa(1.8) };
    const [low, high] = [barToPa(2), barToPa(3.5)];
    const pump = 40 / 60_000;
    const times = runAndRest(drawdownM3(vessel, low, high, 101_325), pump, 12 / 60_000);
    const drawdown = drawdownFromTimes(times, pump);
    expect(drawdown).toBeCloseTo(drawdownM3(vessel, low, high, 101_325), 12);
    const found = gasFromDrawdown(drawdown, vessel.volumeM3, low, high, 101_325);
    expect(found.prechargeUnderPa).toBeCloseTo(vessel.prechargePa, 3);
  });

  it('a short rest may be too little gas or too much, and both are told', () => {
    const [low, high] = [barToPa(2), barToPa(3.5)];
    const over = { volumeM3: 0.024, prechargePa: barToPa(2.6) };
    const found = gasFromDrawdown(drawdownM3(over, low, high, 101_325), 0.024, low, high, 101_325);
    expect(found.prechargeOverPa).toBeCloseTo(over.prechargePa, 3);
    expect(found.prechargeUnderPa).toBeLessThan(barToPa(1));
  });
});
