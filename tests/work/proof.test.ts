import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { partsInPlace } from '../../shared/case/places.ts';
import type { Part, Plant } from '../../shared/plant/schema.ts';
import { featureCases } from '../../shared/work/cases.ts';
import { findingsOfWork } from '../../shared/work/check.ts';
import { featuresOf, targetIndex } from '../../shared/work/features.ts';
import { proveJobs } from '../../shared/work/prove.ts';
import { readWork } from '../../shared/work/read.ts';
import { search } from '../../shared/work/search.ts';
import { sheetOf } from '../../shared/work/sheet.ts';
import { full, measured } from '../full.ts';
import { changed, placed, rules, work } from './files.ts';
import { jobsOnReadyMade } from './jobs-on-ready-made.ts';
import { blocks } from './unsafe.ts';

const minutes = (n: number) => n * 60_000;

describe('proof by search', () => {
  it(
    'finds no way to get hurt or to be left without water, over all jobs and all kinds of plant',
    () => {
      const proof = proveJobs(work, placed);
      expect(proof.findings.map(({ file, line, message }) => `${file}:${line} ${message}`)).toEqual(
        [],
      );
      expect(proof.sheets).toBeGreaterThan(1000);
      measured('states of job sheets searched, none that hurts', proof.states, 'states', 'none');
    },
    minutes(10),
  );

  // every kind of plant there is takes many minutes
  const kinds = full ? featureCases() : jobsOnReadyMade.map(({ features }) => features);
  it(
    'finds none with each condition lost by itself at any moment',
    () => {
      const proof = proveJobs(work, placed, kinds, 'all');
      expect(proof.findings.map(({ file, line, message }) => `${file}:${line} ${message}`)).toEqual(
        [],
      );
      expect(proof.sheets).toBeGreaterThan(300);
    },
    minutes(60),
  );

  it(
    'finds none on plants drawn at random, parts in any order',
    () => {
      const parts = fc.array(
        fc.constantFrom(
          'valve',
          'gauge',
          'drain',
          'check-valve',
          'sediment',
          'carbon',
          'uv',
          'vessel',
          'mains',
        ),
        { minLength: 2, maxLength: 9 },
      );
      const plantOf = (kinds: readonly string[], cock: boolean, bleeds: boolean): Plant => ({
        name: kinds.join(' '),
        line: [
          { id: 'tank', kind: 'tank' },
          ...(cock ? [{ id: 'cock', kind: 'valve' } as const] : []),
          { id: 'suction', kind: 'suction', strainer: true },
          { id: 'pump', kind: 'pump', control: { kind: 'pressure-switch' } },
          ...kinds.map((kind, i): Part => {
            const id = `p${i}`;
            if (kind === 'sediment' || kind === 'carbon')
              return { id, kind: 'filter', medium: kind, bleed: bleeds };
            return { id, kind } as Part;
          }),
          { id: 'house', kind: 'house' },
        ],
      });
      const jobs = [
        'change-sediment',
        'change-carbon',
        'clean-sleeve',
        'change-lamp',
        'change-vessel',
        'change-check-valve',
        'clean-strainer',
      ];
      const proved = new Set<string>();
      fc.assert(
        fc.property(parts, fc.boolean(), fc.boolean(), (kinds, cock, bleeds) => {
          const plant = plantOf(kinds, cock, bleeds);
          for (const job of jobs) {
            const at = work.jobs[job]!.at;
            for (const part of partsInPlace(at, plant)) {
              const features = featuresOf(plant, targetIndex(plant, at, part));
              const key = JSON.stringify([job, features]);
              if (proved.has(key)) continue;
              proved.add(key);
              const { breaches } = search(sheetOf(work, job, features), work.conditions, 'breaks');
              expect(
                breaches.map(({ message, path }) => `${job}: ${message}: ${path.join(' → ')}`),
              ).toEqual([]);
            }
          }
        }),
        { seed: 20261125, numRuns: 60 },
      );
      expect(proved.size).toBeGreaterThan(100);
    },
    minutes(5),
  );

  it('covers every job of the rule set: each has a sheet, and each sheet is a job', () => {
    expect(Object.keys(work.jobs).toSorted()).toEqual(Object.keys(rules.jobs).toSorted());
    const without = changed([['jobs.yaml', /^thaw-pipe:[\s\S]*?\n\n/m, '']]);
    expect(readWork(without).findings).toMatchObject([
      { file: 'work/line.yaml', message: 'sheet thaw-pipe is no job, so no plan can name it' },
    ]);
  });

  it('holds a job of its own for every cause, besides the last resort', () => {
    const own = Object.values(rules.jobs).filter(({ lastResort }) => !lastResort);
    const cured = new Set(own.flatMap(({ cures }) => Object.keys(cures)));
    expect(Object.keys(rules.causes).filter((cause) => !cured.has(cause))).toEqual([]);
  });

  it('refuses a sheet that hands over to a job that is not there', () => {
    const files = changed([[blocks, 'leadsTo: fit-valve', 'leadsTo: fit-nothing']]);
    expect(findingsOfWork(files, ['en'], rules.questions).map(({ message }) => message)).toEqual([
      'start › no-valve: there is no job "fit-nothing" to lead to',
    ]);
  });
});
