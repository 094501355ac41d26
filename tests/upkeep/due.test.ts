import ICAL from 'ical.js';
import { describe, expect, it } from 'vitest';
import { InputError } from '../../shared/common/errors.ts';
import { calendarText } from '../../shared/upkeep/calendar.ts';
import { dayNumber } from '../../shared/upkeep/days.ts';
import { outlookOf } from '../../shared/upkeep/due.ts';
import { parseUpkeep } from '../../shared/upkeep/history.ts';
import { reportOf } from '../../shared/upkeep/report.ts';
import { seeded } from '../seeded.ts';
import { english, outlook, parsed, ruleSet, rules, siUnits } from './tables.ts';
import { flowController, usual } from './trials.ts';
import { plantWith, virtualRecord } from './virtual.ts';

const { record } = virtualRecord(seeded(5), usual);
const report = (input: unknown) => reportOf(outlook(input), rules, ruleSet, english, siUnits);

interface PlantFile {
  name: string;
  line: { id: string; [field: string]: unknown }[];
}
const plant = plantWith(usual.control, 0.1, '2026-01-05') as unknown as PlantFile;
const withPart = (id: string, fields: object): PlantFile => ({
  ...plant,
  line: plant.line.map((part) => (part.id === id ? { ...part, ...fields } : part)),
});

describe('the due list', () => {
  it('has one entry per part and reason, earliest first, with the binding reason of each part marked once', () => {
    const { due } = report(record);
    const keys = due.map(({ part, because }) => `${part} ${because}`);
    expect(new Set(keys).size).toBe(keys.length);
    expect(due.map(({ on }) => on)).toEqual(due.map(({ on }) => on).toSorted());
    for (const part of new Set(due.map((entry) => entry.part))) {
      const own = due.filter((entry) => entry.part === part);
      expect(own.map(({ first }) => first)).toEqual(own.map((_, i) => i === 0));
    }
    expect(keys).toContain('sed-1 resistance');
    expect(keys).toContain('sed-1 service-life');
    expect(due.every(({ from, on, to }) => from <= on && on <= to)).toBe(true);
  });

  it('gives the same bytes for the same record, in whatever order its entries stand', () => {
    const shuffled = { ...record, history: record.history.toReversed() };
    expect(JSON.stringify(report(shuffled))).toBe(JSON.stringify(report(record)));
  });

  it('says nothing of resistance where no reading says anything, and nothing beyond five years', () => {
    const { due, today } = report({ plant, today: '2026-03-01' });
    expect(today).toBe('2026-03-01');
    expect(due.map(({ because }) => because)).not.toContain('resistance');
    const late = report({ plant: withPart('sed-1', { lifeMonths: 90 }), today: '2026-03-01' });
    expect(late.due.filter(({ part }) => part === 'sed-1')).toEqual([]);
  });

  it.each([
    ['by the table', {}, '2026-07-05'],
    ['by its own life', { lifeMonths: 3 }, '2026-04-05'],
  ])('renews a cartridge %s', (_, fields, on) => {
    const { due } = report({ plant: withPart('sed-1', fields), today: '2026-02-01' });
    expect(
      due.find(({ part, because }) => part === 'sed-1' && because === 'service-life')?.on,
    ).toBe(on);
  });

  it('dates a filter outside the gauges by its service life and says that its resistance is not known', () => {
    const bare = { id: 'carbon-2', kind: 'filter', medium: 'carbon' };
    const beyond = (fields: object) => {
      const line = plant.line.flatMap((part) =>
        part.id === 'uv' ? [{ ...bare, ...fields }, part] : [part],
      );
      return report({ ...record, plant: { ...plant, line } });
    };
    const fitted = beyond({ fittedOn: '2026-02-01' });
    const ofIt = ({ due }: typeof fitted) => due.filter(({ part }) => part === 'carbon-2');
    expect(ofIt(fitted)).toMatchObject([
      { because: 'service-life', on: '2027-02-01', first: true },
    ]);
    expect(ofIt(fitted)[0]?.text).toContain('nobody knows how it fills');
    expect(fitted.remarks.map(({ id }) => id)).toContain('filters-unread');
    // Nobody wrote down when: a year from the first reading, 2026-01-06.
    expect(ofIt(beyond({}))).toMatchObject([{ because: 'service-life', on: '2027-01-06' }]);
    expect(
      fitted.due.some(({ part, because }) => part === 'sed-1' && because === 'resistance'),
    ).toBe(true);
  });

  it('counts a cartridge from the job that renewed it', () => {
    const done = [{ at: '2026-05-10T09:00:00+02:00', job: 'change-sediment', parts: ['sed-1'] }];
    const { due } = report({ plant, done, today: '2026-06-01' });
    const entry = due.find(({ part, because }) => part === 'sed-1' && because === 'service-life');
    expect(entry?.on).toBe('2026-11-10');
  });

  it('starts the loading anew at each change', () => {
    const changed = { at: record.today, job: 'change-sediment', parts: ['sed-1'] };
    const { due, remarks } = report({ ...record, done: [changed] });
    expect(due.filter((one) => one.part === 'sed-1' && one.because === 'resistance')).toEqual([]);
    expect(remarks.map(({ id }) => id)).toContain('too-few-readings');
  });

  it('ends a lamp at 24 hours a day since it was fitted, or by its counted hours', () => {
    const uv = { lampFittedOn: '2026-01-01', lampLifeH: 9000 };
    const fitted = report({ plant: withPart('uv', uv), today: '2026-02-01' });
    const hours = (due: typeof fitted.due) => due.find(({ because }) => because === 'lamp-hours');
    // 9000 h / 24 = 375 days
    expect(dayNumber(hours(fitted.due)?.on ?? '') - dayNumber('2026-01-01')).toBe(375);
    const history = [
      { at: '2026-02-01', question: 'lamp-hours', value: 300 },
      { at: '2026-04-02', question: 'lamp-hours', value: 900 },
    ];
    const counted = report({ plant: withPart('uv', uv), history });
    // 600 h in 60 days: 10 a day; 8100 h left.
    expect(dayNumber(hours(counted.due)?.on ?? '') - dayNumber('2026-04-02')).toBe(810);
  });

  it('does not wait for a lamp whose age nobody knows, and says why', () => {
    const { due } = report({
      plant: withPart('uv', { lampFittedOn: undefined }),
      today: '2026-02-01',
    });
    expect(due.find(({ because }) => because === 'lamp-hours')).toMatchObject({
      ...{ part: 'uv', on: '2026-02-01', from: '2026-02-01', to: '2026-02-01' },
    });
    const { why } = outlook({ plant: withPart('uv', { lampFittedOn: undefined }) }).due.find(
      ({ because }) => because === 'lamp-hours',
    )!;
    expect(why.key).toBe('due-lamp-unknown');
  });

  it('counts an inspection from the first day of the record, and where there is none says to look now', () => {
    const keys = (input: object) =>
      outlook(input).due.flatMap(({ because, why, on }) =>
        because === 'inspection' ? [[why.key.split('-').at(-1), on]] : [],
      );
    const today = '2026-02-01';
    expect(new Set(keys({ plant, today }).map(String))).toEqual(new Set([`new,${today}`]));
    const history = [{ at: '2026-01-20', question: 'lamp-hours', value: 300 }];
    expect(keys({ plant, today, history }).map(([how]) => how)).not.toContain('new');
  });

  it('tells when the dose falls under its class, sooner in murkier water', () => {
    const uv = { lampFittedOn: '2026-01-01', ratedDoseMjCm2: 40, ratedFlowLpm: 26 };
    const dose = (history: object[]) =>
      report({ plant: withPart('uv', uv), history, today: '2026-02-01' }).due.find(
        ({ because }) => because === 'dose',
      );
    const clear = dose([]);
    const murky = dose([{ at: '2026-01-15', question: 'water-test', value: { uvtPercent: 90 } }]);
    expect(clear).toBeDefined();
    expect((murky?.on ?? '') < (clear?.on ?? '')).toBe(true);
  });

  it('looks at the tank half a year after it was last worked on', () => {
    const done = [{ at: '2026-03-31', job: 'clean-roof' }];
    const { due } = report({ plant, done, today: '2026-04-01' });
    expect(due.find(({ part }) => part === 'tank')?.on).toBe('2026-09-30');
  });

  it('says so when clean filters do not give the need either', () => {
    const greedy = withPart('house', { need: { open: 2, flowLpm: 60 } });
    const { due, remarks } = report({ ...record, plant: greedy });
    expect(due.map(({ because }) => because)).not.toContain('resistance');
    expect(remarks.map(({ id }) => id)).toContain('need-fails-clean');
  });

  it('leaves entries later than today aside and says how many', () => {
    const early = report({ ...record, today: '2026-02-20' });
    expect(early.remarks.map(({ id }) => id)).toContain('entries-later');
  });

  it('goes on without a gauge, a tap or a part that the plant no longer has, and names them', () => {
    const now = report(record);
    const [first, ...others] = record.history as { at: string; bar: object }[];
    const withMore = {
      ...record,
      history: [
        { ...first, bar: { ...first!.bar, 'old-gauge': 2.2 } },
        { at: first!.at, taps: 'closed', psi: { 'old-gauge': 40 } },
        { at: first!.at, taps: { open: ['old-tap'] }, bar: first!.bar },
        { at: first!.at, question: 'shut-off', value: { bar: 4.1, gauge: 'older-gauge' } },
        ...others,
      ],
      done: [
        ...(record.done ?? []),
        { at: first!.at, job: 'change-sediment', parts: ['old-filter'] },
      ],
    };
    const { due, remarks } = reportOf(
      outlookOf(parseUpkeep(withMore, ruleSet, '2026-11-25', 'left-out'), rules),
      rules,
      ruleSet,
      english,
      siUnits,
    );
    expect(due).toEqual(now.due);
    const told = remarks.filter(({ id }) => !now.remarks.some((one) => one.id === id));
    expect(told.map(({ id }) => id)).toEqual(['parts-gone']);
    for (const id of ['old-gauge', 'old-tap', 'older-gauge', 'old-filter'])
      expect(told[0]?.text).toContain(id);
  });

  it('widens the interval where the pump’s curve was left out', () => {
    const { record } = virtualRecord(seeded(5), { ...usual, control: flowController });
    const { line } = record.plant as PlantFile;
    const guessed = line.map(({ curve, ...part }) => part);
    const width = (input: unknown) => {
      const entry = report(input).due.find(({ because }) => because === 'resistance');
      return dayNumber(entry?.to ?? '') - dayNumber(entry?.from ?? '');
    };
    const left = { ...record, plant: { ...record.plant, line: guessed } };
    expect(width(left)).toBeGreaterThan(width(record));
  });

  it('orders parts before the interval begins, and reckons what each way of changing costs', () => {
    const { buy, spend, due } = report(record);
    for (const { by, part } of buy) {
      const from = due.find((entry) => entry.part === part && entry.first)?.from ?? '';
      expect(dayNumber(from) - dayNumber(by)).toBe(rules.buying.daysBefore);
    }
    // 15 for a sediment cartridge every 6 months
    expect(spend.find(({ part }) => part === 'sed-1')?.byDate).toBe(30);
  });

  it('has words for everything that it says', () => {
    const { due, remarks } = report(record);
    for (const { text } of [...due, ...remarks]) {
      expect(text).toMatch(/ /);
      expect(text).not.toMatch(/[{}]/);
    }
  });
});

describe('the calendar', () => {
  it('is read by an independent parser: whole days, one event per entry, same bytes again', () => {
    const told = report(record);
    const text = calendarText('Fernhollow guesthouse', told, english);
    const events = new ICAL.Component(ICAL.parse(text)).getAllSubcomponents('vevent');
    expect(events).toHaveLength(told.due.length);
    for (const [i, component] of events.entries()) {
      const event = new ICAL.Event(component);
      expect(event.startDate.isDate).toBe(true);
      expect(event.startDate.toString()).toBe(told.due[i]?.on);
      expect(event.description).toContain(told.due[i]?.text);
      // among other people's dates it says whose it is and what of
      expect(event.summary).toContain(`Fernhollow guesthouse, ${told.due[i]?.part}: `);
      expect(event.summary).not.toMatch(/[{}]|due-event/);
      expect(component.getFirstPropertyValue('dtstamp')).toBeTruthy();
    }
    const uids = events.map((event) => event.getFirstPropertyValue('uid'));
    expect(new Set(uids).size).toBe(uids.length);
    expect(calendarText('Fernhollow guesthouse', told, english)).toBe(text);
    expect(text.endsWith('END:VCALENDAR\r\n')).toBe(true);
    // RFC 5545, 3.1: lines of 75 octets at most, ended by CRLF
    for (const line of text.split('\r\n')) expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
  });
});

describe('the calendar of a plant with a strange name', () => {
  it('lets no line of the name become a line of the calendar', () => {
    const text = calendarText('a\r\nEND:VCALENDAR\nb', report(record), english);
    expect(text.match(/^END:VCALENDAR/gm)).toHaveLength(1);
    expect(text).toContain('X-WR-CALNAME:a\\nEND:VCALENDAR\\nb: upkeep');
  });
});

describe('a record that cannot be used', () => {
  const reading = { at: '2026-03-01', taps: 'closed', bar: { G1: 3.4 } };
  it.each([
    ['no plant', { history: [] }, 'plant'],
    ['an unknown field', { plant, histroy: [] }, 'histroy'],
    ['an unknown gauge', { plant, history: [{ ...reading, bar: { G9: 1 } }] }, 'history[0].bar.G9'],
    ['two units', { plant, history: [{ ...reading, psi: { G1: 1 } }] }, 'history[0]'],
    ['no day', { plant, history: [{ ...reading, at: 'March' }] }, 'history[0].at'],
    ['an unknown field of a reading', { plant, history: [{ ...reading, baar: 1 }] }, 'history[0]'],
    [
      'a temperature that cannot be',
      { plant, history: [{ ...reading, waterTempC: -5 }] },
      'history[0].waterTempC',
    ],
    [
      'an unknown job',
      { plant, done: [{ at: '2026-03-01', job: 'change-sedment' }] },
      'done[0].job',
    ],
    [
      'an unknown part',
      { plant, done: [{ at: '2026-03-01', job: 'change-sediment', parts: ['x'] }] },
      'done[0].parts[0]',
    ],
    [
      'an unknown question',
      { plant, history: [{ at: '2026-03-01', question: 'lamp', value: 1 }] },
      'history[0].question',
    ],
  ])('is refused by its place: %s', (_, input, where) => {
    let place = '';
    try {
      parsed(input);
    } catch (error) {
      if (error instanceof InputError) place = error.where;
    }
    expect(place).toContain(where);
  });
});
