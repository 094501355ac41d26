import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { partsInPlace } from '../../shared/case/places.ts';
import { fernhollow } from '../../shared/plant/fernhollow.ts';
import { readyMade } from '../../shared/plant/ready-made.ts';
import type { Part, Plant } from '../../shared/plant/schema.ts';
import { featureCases } from '../../shared/work/cases.ts';
import { findingsOfWork } from '../../shared/work/check.ts';
import { featuresOf, targetIndex } from '../../shared/work/features.ts';
import { placesFor } from '../../shared/work/job.ts';
import { proveJobs } from '../../shared/work/prove.ts';
import { readWork } from '../../shared/work/read.ts';
import { search } from '../../shared/work/search.ts';
import { sheetOf } from '../../shared/work/sheet.ts';
import { full } from '../full.ts';
import { changed, type Edit, placed, rules, work } from './files.ts';

const blocks = 'work/blocks.yaml';
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
    },
    minutes(10),
  );

  it(
    'finds none for any job on the ready-made plants, with each condition lost by itself at any moment',
    () => {
      const plants = [...readyMade.map(({ plant }) => plant), fernhollow];
      const proved = new Set<string>();
      for (const job of Object.keys(work.jobs)) {
        for (const plant of plants) {
          for (const part of placesFor(job, plant, { rules, work })) {
            const features = featuresOf(plant, targetIndex(plant, work.jobs[job]!.at, part));
            const key = JSON.stringify([job, features]);
            if (proved.has(key)) continue;
            proved.add(key);
            const { breaches } = search(sheetOf(work, job, features), work.conditions, 'all');
            expect(
              breaches.map(
                ({ message, path }) => `${job} ${plant.name} ${message}: ${path.join(' → ')}`,
              ),
            ).toEqual([]);
          }
        }
      }
      expect(proved.size).toBeGreaterThan(300);
    },
    minutes(5),
  );

  it.runIf(full)(
    'finds none for any job on any kind of plant, with each condition lost by itself at any moment',
    () => {
      const proof = proveJobs(work, placed, featureCases(), 'all');
      expect(proof.findings.map(({ file, line, message }) => `${file}:${line} ${message}`)).toEqual(
        [],
      );
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
    expect(findingsOfWork(files, ['en']).map(({ message }) => message)).toEqual([
      'start › no-valve: there is no job "fit-nothing" to lead to',
    ]);
  });
});

/** One plant is enough to see a sheet broken; the whole proof runs over all. */
const some = featureCases().filter((_, i) => i % 7 === 0);

interface Unsafe {
  readonly title: string;
  readonly edits: readonly Edit[];
  readonly job: string;
  readonly says: string;
  readonly path?: RegExp;
}

/** Rule sets made unsafe on purpose: what is changed, the job it breaks, what must be said of it and of the way there. */
const unsafe: readonly Unsafe[] = [
  {
    title: 'one sign of zero pressure is taken for enough',
    edits: [
      ['work/conditions.yaml', 'atLeast: 2\n    of: [tap-dry', 'atLeast: 1\n    of: [tap-dry'],
      [blocks, /- \{ id: no-second-sign[^}]*\}[^}]*\}/, ''],
    ],
    job: 'change-sediment',
    says: 'opens a wetted part under pressure',
    path: /the tap deceives/,
  },
  {
    title: 'a gauge that stays up leads onward',
    edits: [
      [
        blocks,
        /above-rest: \{ shows: (\{[^}]*\}), branch: gauge-stays-up \}/,
        'above-rest: { makes: [gauge-down], shows: $1 }',
      ],
    ],
    job: 'change-sediment',
    says: 'opens a wetted part under pressure',
    path: /gauge-down: above-rest/,
  },
  {
    title: 'a tap that runs on and a bleed that hisses on lead onward, and nothing need be made',
    edits: [
      [blocks, /branch: valve-passes/g, 'makes: [tap-dry]'],
      [blocks, /branch: bleed-hisses/g, 'makes: [bleed-silent]'],
    ],
    job: 'change-sediment',
    says: 'opens a wetted part under pressure',
    path: /the valve passes water/,
  },
  {
    title: 'the supply is never shut',
    edits: [[blocks, /does: \[shut-supply\]/g, 'does: []']],
    job: 'change-sediment',
    says: 'says "isolated" when it is not so',
  },
  {
    title: 'nothing makes the part isolated',
    edits: [[blocks, /makes: \[isolated\]/g, 'makes: [told]']],
    job: 'change-sediment',
    says: 'can never be finished',
  },
  {
    title: 'the pump is switched off but not locked',
    edits: [[blocks, /does: \[lock-power\]/g, 'does: [switch-off]']],
    job: 'change-sediment',
    says: 'opens a wetted part while the pump can still start',
  },
  {
    title: 'nobody tries whether the right switch is locked',
    edits: [
      [
        blocks,
        /silent: \{ makes: \[pump-tried\], shows: \{[^}]*\} \}/,
        'silent: { makes: [pump-tried] }',
      ],
    ],
    job: 'change-sediment',
    says: 'opens a wetted part while the pump can still start',
    path: /the wrong switch is locked/,
  },
  {
    title: 'the house is left to drain back through the open housing',
    edits: [[blocks, /does: \[shut-far\]/g, 'does: []']],
    job: 'change-sediment',
    says: 'opens a wetted part while the house can drain back through it',
  },
  {
    title: 'a break ends nothing',
    edits: [
      ['work/conditions.yaml', /checkAgainAfterMinutes: 60/g, 'checkAgainAfterMinutes: 600000'],
    ],
    job: 'change-sediment',
    says: 'opens a wetted part under pressure',
    path: /a day passes/,
  },
  {
    title: 'opening the inlet does not end "isolated"',
    edits: [[blocks, /(does: \[crack-supply\]\s+)loses: \[isolated\]/, '$1loses: []']],
    job: 'change-sediment',
    says: 'says "isolated" when it is not so',
    path: /crack-supply/,
  },
  {
    title: 'water goes on while the housing is open',
    edits: [
      [
        blocks,
        /(id: seat-cartridge\s+needs: \[part-open, isolated, locked\])/,
        '$1\n      does: [crack-supply]',
      ],
    ],
    job: 'change-sediment',
    says: 'lets water or power on while a part is still open',
  },
  {
    title: 'live terminals are opened without being proved dead',
    edits: [
      [
        'work/pump.yaml',
        /dead: \{ makes: \[dead-proved\], shows: \{[^}]*\} \}/g,
        'dead: { makes: [dead-proved] }',
      ],
    ],
    job: 'set-switch',
    says: 'opens a live part that is not dead',
    path: /the wrong switch is locked/,
  },
  {
    title: 'live terminals are opened by whoever is there',
    edits: [
      ['work/pump.yaml', /id: turn-springs,\s+by: electrician/, 'id: turn-springs, by: technician'],
    ],
    job: 'set-switch',
    says: 'opens a live part without a licensed electrician',
  },
  {
    title: 'the lamp is drawn while it is lit',
    edits: [[blocks, /does: \[uv-off\]/, 'does: []']],
    job: 'change-lamp',
    says: 'takes the lamp out of its shield while it is lit or hot',
  },
  {
    title: 'the lamp chamber is opened with the lamp hot',
    edits: [[blocks, /does: \[uv-cool\]/, 'does: []']],
    job: 'clean-sleeve',
    says: 'opens the lamp chamber while the lamp is lit or hot',
  },
  {
    title: 'the gas of the vessel is set with water behind it',
    edits: [
      [blocks, /does: \[open-far, open-tap\]/g, 'does: []'],
      [blocks, /does: \[open-supply, open-far, open-tap\]/g, 'does: []'],
      [
        blocks,
        /shows: \{ by: (tap|gauge|drain|probe), fact: (no-)?pressure \}/g,
        'shows: { by: eye, fact: no-pressure }',
      ],
    ],
    job: 'set-precharge',
    says: 'works on the gas side of the vessel while its water side is under pressure',
  },
  {
    title: 'the part never counts as closed up',
    edits: [[blocks, /makes: \[closed-up\]/g, 'makes: []']],
    job: 'change-sediment',
    says: 'can never be finished',
  },
  {
    title: 'after a new ring nothing says that the pump is locked',
    edits: [['work/branches.yaml', /fitted: \{\}/, 'fitted: { loses: [locked] }']],
    job: 'change-sediment',
    says: 'cannot be finished from here',
    path: /new-ring/,
  },
  {
    title: 'the valve before the part stays half shut',
    edits: [[blocks, /does: \[open-supply\]/g, 'does: []']],
    job: 'change-sediment',
    says: 'ends with the valve before the part not fully open',
  },
  {
    title: 'the pump stays locked off',
    edits: [[blocks, /does: \[power-on\]/g, 'does: []']],
    job: 'change-sediment',
    says: 'ends with the power of the pump off',
  },
  {
    title: 'the house stays shut off',
    edits: [[blocks, /does: \[open-far\]/g, 'does: []']],
    job: 'change-sediment',
    says: 'ends with the house shut off',
  },
  {
    title: 'the bypass stays open',
    edits: [['work/line.yaml', 'does: [shut-bypass]', 'does: []']],
    job: 'open-valves',
    says: 'ends with the bypass open',
  },
  {
    title: 'the lamp stays dark',
    edits: [[blocks, 'does: [uv-on]', 'does: []']],
    job: 'change-lamp',
    says: 'ends with the lamp off',
  },
  {
    title: 'nobody looks for leaks under pressure',
    edits: [[blocks, 'does: [check-leaks]', 'does: []']],
    job: 'change-sediment',
    says: 'ends with no leak check under pressure',
  },
  {
    title: 'the water advice is dropped though nothing was flushed',
    edits: [[blocks, /later: \{\}/, 'later: { earns: [microbes] }']],
    job: 'clean-sleeve',
    says: 'withdraws the water advice before it is earned',
    path: /dose-open: later/,
  },
  {
    title: 'nobody is told that a part beyond the lamp was opened',
    edits: [[blocks, /raises: \[microbes\]/g, 'raises: []']],
    job: 'clean-sleeve',
    says: 'ends with untreated water in the house and no advice about it',
  },
  {
    title: 'a hand-over leaves the housing open with the pump unlocked',
    edits: [
      [blocks, /torn: \{ branch: ring-torn \}/, 'torn: { does: [power-on], ends: handed-over }'],
    ],
    job: 'change-sediment',
    says: 'is handed over with a part open and the supply or pump not locked',
  },
];

describe('unsafe rule sets', () => {
  for (const { title, edits, job, says, path } of unsafe) {
    it(
      `are refused with the path that breaks them: ${title}`,
      () => {
        const broken = readWork(changed(edits));
        expect(broken.findings).toEqual([]);
        const { findings } = proveJobs(broken.work, broken.placed, some, 'breaks', [job]);
        const found = findings.find(
          ({ message, path: way }) =>
            message.includes(says) && (!path || path.test(way.join(' → '))),
        );
        const told = found ?? findings.map(({ message }) => message);
        expect(told).toMatchObject({ job, message: expect.stringContaining(says) });
        expect(found?.file).toMatch(/^work\//);
        expect(found?.line).toBeGreaterThan(1);
        if (!says.includes('never be finished')) expect(found?.path.length).toBeGreaterThan(1);
      },
      minutes(3),
    );
  }

  it('are refused before any search when something is opened without a caution', () => {
    const edit: Edit = [blocks, /(id: loosen-housing[\s\S]*?)caution: true/, '$1caution: false'];
    const wrong = findingsOfWork(changed([edit]), ['en']);
    expect(wrong.map(({ message }) => message)).toEqual([
      'cartridge-out › loosen-housing: opens something (open-wetted) without a caution',
    ]);
  });
});
