import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { calendarText } from '../../shared/upkeep/calendar.ts';
import { resistancePicture } from '../../shared/upkeep/pictures/resistance.ts';
import { reportOf } from '../../shared/upkeep/report.ts';
import { english, outlook, ruleSet, rules, siUnits } from './tables.ts';
import { flowController, pressureSwitch } from './trials.ts';
import { plantWith } from './virtual.ts';

const day = fc.integer({ min: 1, max: 28 }).chain((d) =>
  fc.integer({ min: 1, max: 12 }).map((m) => {
    return `2026-${String(m).padStart(2, '0')}-${String(d).padStart(2, '0')}`;
  }),
);
const pressure = fc.oneof(
  fc.constantFrom(0, 3, 'unknown' as const),
  fc.double({ min: 0, max: 8, noNaN: true }),
);
const bar = fc.record({ G1: pressure, G2: pressure, G3: pressure }, { requiredKeys: [] });
const open = fc.constantFrom({ open: 1 }, { open: 3 }, 'part-open' as const);
const round = fc.oneof(
  fc.record({ at: day, taps: fc.constant('closed' as const), bar }),
  fc.record(
    {
      ...{ at: day, taps: open, bar },
      flowLpm: fc.oneof(fc.constant(0), fc.double({ min: 0, max: 90, noNaN: true })),
      waterTempC: fc.integer({ min: 0, max: 40 }),
    },
    { requiredKeys: ['at', 'taps', 'bar'] },
  ),
);
const other = fc.constantFrom(
  { question: 'shut-off', value: { bar: 4 } },
  { question: 'precharge', value: 'water-at-valve' },
  { question: 'precharge', value: 'unknown' },
  { question: 'cycle-times', value: { onS: 1, offS: 1, taps: 'open' } },
  { question: 'cycle-times', value: null },
  { question: 'lamp-hours', value: 0 },
  { question: 'lamp-hours', value: 20000 },
  { question: 'water-test', value: { uvtPercent: 0 } },
  { question: 'water-test', value: 'unknown' },
);
const answer = fc.tuple(day, other).map(([at, rest]) => ({ at, ...rest }));
const job = fc.constantFrom('change-sediment', 'change-gauge', 'set-precharge', 'change-lamp');
const done = fc.record({ at: day, job });

describe('any record that can be read', () => {
  it('gives a report with real dates in order and a calendar, whatever was read (300 records, seed 8)', () => {
    fc.assert(
      fc.property(
        fc.array(fc.oneof(round, round, answer), { maxLength: 14 }),
        fc.array(done, { maxLength: 3 }),
        fc.constantFrom(flowController, pressureSwitch, { kind: 'none' }),
        fc.boolean(),
        (history, work, control, bare) => {
          const plant = plantWith(control, 0.1, '2026-01-05');
          const uv = { id: 'uv2', kind: 'uv', ratedFlowLpm: 30, ratedDoseMjCm2: 40 };
          const line = bare
            ? plant.line.map(({ id, kind, ...rest }) =>
                'medium' in rest ? { id, kind, medium: rest.medium } : { id, kind },
              )
            : plant.line.toSpliced(-1, 0, { ...uv, lampFittedOn: '2026-01-05' } as never);
          const seen = outlook({ plant: { ...plant, line }, history, done: work });
          const report = reportOf(seen, rules, ruleSet, english, siUnits);
          for (const { from, on, to } of report.due) {
            expect(from <= on && on <= to).toBe(true);
            expect(on).toMatch(/^\d{4}-\d\d-\d\d$/);
          }
          expect(JSON.stringify(report)).not.toMatch(/NaN|Infinity/);
          for (const { text } of report.remarks) expect(text).not.toMatch(/NaN|Infinity|[{}]/);
          const picture = resistancePicture(seen, 0, english, siUnits);
          expect(picture?.svg ?? '').not.toMatch(/NaN|Infinity/);
          expect(calendarText('x', report, english)).toContain('END:VCALENDAR');
        },
      ),
      { seed: 8, numRuns: 300 },
    );
  }, 240_000);
});
