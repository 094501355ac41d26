import { describe, expect, it } from 'vitest';
import { resistanceOfFitting } from '../../shared/hydraulics/cartridge.ts';
import {
  bucketFlow,
  CV_PER_KV,
  kvFlowM3s,
  lossCoefficientOfKv,
  outletFlowM3s,
  outletK,
} from '../../shared/hydraulics/tap.ts';
import { barToPa, gpmToLpm, lpmToM3s, m3sToLpm, psiToBar } from '../../shared/hydraulics/units.ts';

describe('valves and taps against published figures', () => {
  it('a Kv of 1 is a Cv of 1.156, and a Cv of 2.312 a Kv of 2 (ISA-75.01.01-2007)', () => {
    expect(CV_PER_KV).toBeCloseTo(1.156099228, 9);
    expect(2.312 / CV_PER_KV).toBeCloseTo(1.99983, 5);
    // IEC 60534 rounds Kv = 0.865 Cv.
    expect(Math.abs(1 / CV_PER_KV / 0.865 - 1)).toBeLessThan(5e-4);
  });

  it('TP-410M Example 7.2: a Kv of 500 on 154 mm is K 3.6', () => {
    expect(lossCoefficientOfKv(500, 0.154)).toBeCloseTo(3.6, 2);
  });

  it('TP-410M Example 7.3: K 2.475 on 97.2 mm is a Kv of 240.2', () => {
    expect(lossCoefficientOfKv(240.2, 0.0972)).toBeCloseTo(2.475, 2);
  });

  it('a Kv of 1 passes 16.667 L/min at 1 bar (IEC 60534-1, from memory), half at a quarter', () => {
    expect(m3sToLpm(kvFlowM3s(1, barToPa(1)))).toBeCloseTo(16.667, 3);
    expect(m3sToLpm(kvFlowM3s(0.9, barToPa(0.25)))).toBeCloseTo(7.5, 9);
  });

  it('Kv and K tell the same loss', () => {
    const q = lpmToM3s(20);
    const byK = resistanceOfFitting(lossCoefficientOfKv(2.5, 0.02), 0.02).quadratic * q * q;
    expect(byK).toBeCloseTo(barToPa(0.2304), -2);
  });

  it('a WaterSense basin tap of 1.5 gpm at 60 psi still gives its 0.8 gpm at 20 psi', () => {
    // US EPA WaterSense, nepis P10180T4: at most 1.5 gpm at 60 psi, at least 0.8 at 20. √ gives 0.866.
    const k = outletK(lpmToM3s(gpmToLpm(1.5)), barToPa(psiToBar(60)));
    const gpm = m3sToLpm(outletFlowM3s(k, barToPa(psiToBar(20)))) / gpmToLpm(1);
    expect(gpm).toBeCloseTo(0.866, 3);
    expect(gpm).toBeGreaterThan(0.8);
  });

  it('a shower head with a fixed orifice fails the EU and EPA low-pressure floors only where they ask for more than √', () => {
    // Delegated Reg. (EU) 2021/2139, App. E: at 1.5 bar at least 60 % of the flow at 3 bar; √ gives 70.7 %, passes.
    expect(outletFlowM3s(1, 1.5) / outletFlowM3s(1, 3)).toBeGreaterThan(0.6);
    // EPA WaterSense shower heads (from memory): at 20 psi at least 60 % of rated at 80; √ gives 50 %, fails.
    expect(outletFlowM3s(1, 20) / outletFlowM3s(1, 80)).toBeLessThan(0.6);
  });

  it('EN 806-3 Table 2: a bath’s 24 L/min draws twice what a sink’s 12 does', () => {
    expect(lpmToM3s(24) * 1000).toBeCloseTo(0.4, 12);
    expect(lpmToM3s(12) * 1000).toBeCloseTo(0.2, 12);
  });

  it('an outlet under no pressure gives nothing', () => {
    expect(outletFlowM3s(1, -5)).toBe(0);
  });

  it('a bucket of 10 L in 50 s is 12 L/min, known to about 6 %', () => {
    const { m3s, u } = bucketFlow(10, 50);
    expect(m3sToLpm(m3s)).toBeCloseTo(12, 9);
    expect((2 * u) / m3s).toBeGreaterThan(0.05);
    expect((2 * u) / m3s).toBeLessThan(0.07);
  });
});
