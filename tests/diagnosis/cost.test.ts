import { describe, expect, it } from 'vitest';
import { minutesOf, pricingOf } from '../../shared/diagnosis/cost.ts';
import type { Job, RuleSet } from '../../shared/ruleset/schema.ts';

describe('what a job costs', () => {
  const rules = {
    head: {
      visitMinutes: { technician: 90, plumber: 120, electrician: 150 },
      minutesPerMoney: 0.5,
    },
  } as unknown as RuleSet;
  const job = (by: string, perPart = false) => ({ by, minutes: 30, money: 20, perPart }) as Job;
  const none = new Set<never>();

  it('in minutes: its own, its parts in minutes, and having somebody come who is not there', () => {
    const { of, perMinute, there } = pricingOf(rules, 'householder', undefined);
    expect(of(job('householder'), 1, none)).toBe(40);
    expect(of(job('technician'), 1, none)).toBe(130);
    expect(of(job('technician'), 1, new Set(['technician'] as const))).toBe(40);
    expect(perMinute).toBe(1);
    expect([...there]).toEqual(['householder']);
  });

  it('in money where the case gives its own figures', () => {
    const { of, perMinute, there } = pricingOf(rules, 'technician', {
      perHour: 60,
      callOut: 80,
    } as never);
    expect(of(job('plumber'), 1, there)).toBe(130);
    expect(of(job('technician'), 1, there)).toBe(50);
    expect(perMinute).toBe(1);
    expect([...there]).toEqual(['householder', 'technician']);
    const half = pricingOf(rules, 'agent', { perHour: 30, callOut: 80 } as never);
    expect(half.perMinute).toBe(0.5);
    expect(half.of(job('householder'), 1, half.there)).toBe(15 + 20);
    expect(half.of(job('technician'), 1, half.there)).toBe(15 + 20 + 80);
  });

  it('a second part of the same job takes half as long again and its own material', () => {
    expect(minutesOf(job('householder', true), 3)).toBe(60);
    expect(minutesOf(job('householder', true), 0)).toBe(30);
    expect(minutesOf(job('householder'), 3)).toBe(30);
    const { of } = pricingOf(rules, 'householder', undefined);
    expect(of(job('householder', true), 2, none)).toBe(45 + 20);
    expect(of(job('householder'), 2, none)).toBe(40);
  });
});
