import { expect, it } from 'vitest';
import { vanFor } from '../../shared/diagnosis/van.ts';
import { ruleSet } from './rules.ts';

const line = (...kinds: string[]) =>
  ({ line: [...kinds, 'house'].map((kind) => ({ id: kind, kind })) }) as never;

it('what only some plants need stays at home for the others', () => {
  const job = { van: ['gauge', 'ballast'], vanOnlyFor: { ballast: ['uv', 'softener'] } } as never;
  expect(vanFor(job, line('pump'))).toEqual(['gauge']);
  expect(vanFor(job, line('pump', 'uv'))).toEqual(['gauge', 'ballast']);
  expect(vanFor({ van: ['gauge', 'ballast'] } as never, line())).toEqual(['gauge', 'ballast']);
});

it('nobody takes a ballast or a reducer to a plant that has no such part', () => {
  const [last] = Object.values(ruleSet.jobs).filter((job) => job.lastResort && job.vanOnlyFor);
  if (!last) throw new Error('no last resort leaves anything at home');
  expect(vanFor(last, line('pump'))).toEqual(['test-gauge']);
  expect(vanFor(last, line('pump', 'uv'))).toEqual(['test-gauge', 'uv-ballast']);
  expect(vanFor(last, line('pressure-reducer'))).toEqual(['test-gauge', 'reducer']);
});
