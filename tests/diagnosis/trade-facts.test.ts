import { describe, expect, it } from 'vitest';
import { twoGauges } from '../two-gauges.ts';
import { chanceOf, judgeCase } from './rules.ts';

/**
 * Facts of the trade (common practice) as whole cases, on a plant of pump, two sediment stages, UV and two carbon stages
 * with a gauge after pump, sediment and carbon.
 */
const plant = {
  name: 'three gauges',
  line: [
    { id: 'tank', kind: 'tank', levelM: 1.5 },
    { id: 'suction', kind: 'suction', lengthM: 3 },
    {
      id: 'pump',
      kind: 'pump',
      curve: [
        { flowLpm: 0, headM: 40 },
        { flowLpm: 10, headM: 26 },
        { flowLpm: 18, headM: 8 },
      ],
      control: { kind: 'flow-controller', startBar: 1.5, minFlowLpm: 1.5 },
    },
    { id: 'G1', kind: 'gauge' },
    { id: 'sed-1', kind: 'filter', medium: 'sediment', ratingMicron: 20 },
    { id: 'sed-2', kind: 'filter', medium: 'sediment', ratingMicron: 5 },
    { id: 'G2', kind: 'gauge' },
    { id: 'uv', kind: 'uv' },
    { id: 'carbon-1', kind: 'filter', medium: 'carbon', fittedOn: '2026-05-25', lifeMonths: 12 },
    { id: 'carbon-2', kind: 'filter', medium: 'carbon', fittedOn: '2026-05-25', lifeMonths: 12 },
    { id: 'G3', kind: 'gauge' },
    { id: 'house', kind: 'house' },
  ],
};
const closed = (g1: number, g2: number, g3: number, unit = 'bar') => ({
  question: 'readings',
  value: { taps: 'closed', [unit]: { G1: g1, G2: g2, G3: g3 } },
});
const oneTap = (g1: number, g2: number, g3: number, unit = 'bar') => ({
  question: 'readings',
  value: { taps: { open: 1 }, [unit]: { G1: g1, G2: g2, G3: g3 } },
});
const quiet = [
  { question: 'danger', value: [] },
  { question: 'smell', value: 'none' },
  { question: 'taste', value: 'none' },
  { question: 'look', value: 'clear' },
];

describe('facts of the trade', () => {
  const blocked = judgeCase(plant, [
    ...quiet,
    { question: 'complaint', value: ['weak'] },
    { question: 'pump-open', value: 'cycles' },
    closed(4, 4, 4),
    oneTap(3.7, 0.5, 0.3),
  ]);

  it('4/4/4 at rest, 3.7/0.5/0.3 with a tap open and a pump that cycles is blocked sediment', () => {
    expect(blocked.causes[0]?.id).toBe('sediment-blocked');
    expect(chanceOf(blocked, 'sediment-blocked')).toBeGreaterThan(0.9);
    expect(blocked.plan[0]?.job).toBe('change-sediment');
  });

  it('a small drop at a small flow neither accuses nor clears the carbon behind it', () => {
    const behind = blocked.segments.find((segment) => segment.from === 'G2');
    expect(behind?.tooSmall).toBe(true);
    const before = judgeCase(plant, []);
    const carbon = chanceOf(blocked, 'carbon-blocked');
    expect(carbon).toBeLessThan(0.3);
    expect(carbon).toBeGreaterThan(0.25 * chanceOf(before, 'carbon-blocked'));
  });

  it('2.6/2.5/1.8 after the change: sediment clean, carbon loaded but left until its date', () => {
    const after = judgeCase(plant, [
      ...quiet,
      { question: 'complaint', value: ['weak'] },
      closed(4, 4, 4),
      oneTap(3.7, 0.5, 0.3),
      { question: 'work-done', value: { job: 'change-sediment', parts: ['sed-1', 'sed-2'] } },
      { question: 'complaint', value: ['routine'] },
      closed(4, 4, 4),
      oneTap(2.6, 2.5, 1.8),
    ]);
    expect(chanceOf(after, 'sediment-blocked')).toBeLessThan(0.05);
    expect(chanceOf(after, 'carbon-blocked')).toBeLessThan(0.5);
    const [sediment, carbon] = ['G1', 'G2'].map((from) =>
      after.segments.find((s) => s.from === from),
    );
    expect(carbon?.timesClean ?? 0).toBeGreaterThan(sediment?.timesClean ?? 0);
    expect(after.plan[0]?.job).toBe('leave-until-due');
    expect(after.plan[0]?.parts).toEqual(expect.arrayContaining(['carbon-1', 'carbon-2']));
  });

  it('low at all three gauges is pump, suction or tank, and the filters are not accused', () => {
    const low = judgeCase(plant, [
      ...quiet,
      { question: 'complaint', value: ['weak'] },
      { question: 'pump-open', value: 'weak-steady' },
      oneTap(0.8, 0.7, 0.6),
    ]);
    const source = ['pump-worn', 'suction-blocked', 'suction-air-leak', 'tank-low'];
    expect(source).toContain(low.causes[0]?.id);
    for (const filter of ['sediment-blocked', 'carbon-blocked'])
      expect(chanceOf(low, filter)).toBeLessThan(0.1);
  });

  it.each([
    [
      'a full tank, gravel and near-normal pressure at no flow',
      [
        { question: 'tank-level', value: 'full' },
        { question: 'pump-sound', value: 'gravel' },
        { question: 'shut-off', value: { bar: 4, gauge: 'G1' } },
      ],
      'suction-blocked',
    ],
    [
      'a full tank, a normal sound and low pressure at no flow',
      [
        { question: 'tank-level', value: 'full' },
        { question: 'pump-sound', value: 'normal' },
        { question: 'shut-off', value: { bar: 1.8, gauge: 'G1' } },
      ],
      'pump-worn',
    ],
    ['a tank under its outlet', [{ question: 'tank-level', value: { m: 0.05 } }], 'tank-low'],
    [
      'spurts of air',
      [
        { question: 'tank-level', value: 'full' },
        { question: 'air-seen', value: 'spurts' },
      ],
      'suction-air-leak',
    ],
  ])('low everywhere with %s is told apart', (_, more, cause) => {
    const told = judgeCase(plant, [
      { question: 'complaint', value: ['weak'] },
      oneTap(0.8, 0.7, 0.6),
      ...more,
    ]);
    expect(told.causes[0]?.id).toBe(cause);
  });

  it('58 psi is 4 bar and 11.6 psi is 0.8 bar', () => {
    const inBar = judgeCase(plant, [closed(4, 4, 4), oneTap(0.8, 0.8, 0.8)]);
    const inPsi = judgeCase(plant, [closed(58, 58, 58, 'psi'), oneTap(11.6, 11.6, 11.6, 'psi')]);
    inPsi.causes.forEach(({ id, probability }) => {
      expect(probability).toBeCloseTo(chanceOf(inBar, id), 2);
    });
  });

  describe('a pump that clicks every few seconds on a switch and vessel', () => {
    const vessel = (volumeL?: number) => ({
      name: 'vessel',
      line: [
        { id: 'tank', kind: 'tank' },
        { id: 'suction', kind: 'suction' },
        { id: 'pump', kind: 'pump', control: { kind: 'pressure-switch' } },
        { id: 'vessel', kind: 'vessel', ...(volumeL && { volumeL, prechargeBar: 1.8 }) },
        { id: 'v1', kind: 'valve' },
        { id: 'house', kind: 'house' },
      ],
    });
    const clicking = (onset: string) => [
      ...quiet,
      { question: 'complaint', value: ['pulsing'] },
      { question: 'onset', value: onset },
      { question: 'pump-open', value: 'cycles-fast' },
    ];
    const found = (value: unknown) => ({ question: 'precharge', value });

    it.each([
      ['gradual', undefined],
      ['gradual', 24],
      ['sudden', undefined],
      ['sudden', 24],
    ])(
      '%s, vessel of %s L: lost air comes before torn rubber, in the plan too',
      (onset, litres) => {
        const told = judgeCase(vessel(litres), clicking(onset));
        expect(told.causes[0]?.id).toBe('precharge-low');
        expect(told.plan[0]?.job).toBe('set-precharge');
      },
    );

    it.each(['gradual', 'sudden'])('%s: the air valve decides between the two', (onset) => {
      const told = (value: unknown) => judgeCase(vessel(), [...clicking(onset), found(value)]);
      const empty = told({ bar: 0 });
      expect(chanceOf(empty, 'precharge-low')).toBeGreaterThan(0.8);
      expect(empty.plan[0]?.job).toBe('set-precharge');
      const wet = told('water-at-valve');
      expect(chanceOf(wet, 'diaphragm-failed')).toBeGreaterThan(0.9);
      expect(wet.plan[0]?.job).toBe('change-vessel');
      // a charge that holds with the line drained stands behind whole rubber
      expect(chanceOf(told({ bar: 0.6 }), 'diaphragm-failed')).toBeLessThan(0.05);
    });
  });

  describe('dirt that passes since the filters were changed', () => {
    const plan = (look: string) =>
      judgeCase(plant, [
        { question: 'danger', value: [] },
        { question: 'complaint', value: ['look'] },
        { question: 'onset', value: 'after-work' },
        { question: 'recent-work', value: ['filters'] },
        { question: 'smell', value: 'none' },
        { question: 'taste', value: 'none' },
        { question: 'look', value: look },
      ]).plan.map(({ job }) => job);

    it.each(['brown', 'cloudy-stays'])(
      '%s: opened, looked at and seated before a new one is bought',
      (look) => {
        expect(plan(look).slice(0, 2)).toEqual(['reseat-cartridge', 'change-sediment']);
      },
    );

    it('specks, as of a wrong cartridge: seating it again helps no more', () => {
      expect(plan('specks')[0]).toBe('change-sediment');
    });
  });

  describe('the alarm of the ultraviolet unit', () => {
    const alarmed = (lampFittedOn?: string) => ({
      name: 'lamp',
      line: [
        { id: 'tank', kind: 'tank' },
        { id: 'pump', kind: 'pump', control: { kind: 'pressure-switch' } },
        { id: 'vessel', kind: 'vessel' },
        { id: 'uv', kind: 'uv', ...(lampFittedOn && { lampFittedOn }) },
        { id: 'house', kind: 'house' },
      ],
    });
    const opening = [
      { question: 'danger', value: [] },
      { question: 'household', value: [] },
      { question: 'complaint', value: ['alarm'] },
    ];
    const display = { question: 'uv-light', value: 'alarm' };

    it('its display is looked at first, then the hours where nobody knows the lamp’s age', () => {
      expect(judgeCase(alarmed(), opening).next?.question).toBe('uv-light');
      expect(judgeCase(alarmed(), [...opening, display]).next?.question).toBe('lamp-hours');
      const known = judgeCase(alarmed('2025-09-25'), [...opening, display]);
      expect(known.next?.question).not.toBe('lamp-hours');
      // other complaints do not begin with the lamp
      const smell = [...opening.slice(0, 2), { question: 'complaint', value: ['smell'] }];
      expect(judgeCase(alarmed(), smell).next?.question).not.toBe('uv-light');
    });

    it('with a lamp past its life that is the trouble, not merely due', () => {
      const old = judgeCase(alarmed('2025-09-25'), [...opening, display]);
      expect(old.causes[0]).toMatchObject({ id: 'uv-lamp-aged' });
      expect(old.causes[0]?.overdue).toBeUndefined();
      expect(chanceOf(old, 'uv-lamp-aged')).toBeGreaterThan(0.9);
      expect(old.plan[0]?.job).toBe('change-lamp');
      const hours = judgeCase(alarmed(), [
        ...opening,
        display,
        { question: 'lamp-hours', value: 9500 },
      ]);
      expect(chanceOf(hours, 'uv-lamp-aged')).toBeGreaterThan(0.9);
      // nobody complains: it is told with its date
      const routine = [...opening.slice(0, 2), { question: 'complaint', value: ['routine'] }];
      const due = judgeCase(alarmed('2025-09-25'), routine);
      expect(due.causes.find(({ id }) => id === 'uv-lamp-aged')?.overdue).toBe(true);
    });

    it('with a young lamp it is the sleeve or the light', () => {
      const young = judgeCase(alarmed('2026-08-25'), [...opening, display]);
      expect(chanceOf(young, 'uv-lamp-aged')).toBeLessThan(0.15);
    });
  });

  it('a drop of 2.5 bar at a cartridge stands against an onset all at once: dirt comes in a day too', () => {
    const measured = (onset: string) =>
      judgeCase(twoGauges, [
        ...quiet,
        { question: 'complaint', value: ['weak'] },
        { question: 'onset', value: onset },
        { question: 'readings', value: { taps: 'closed', bar: { G1: 3.4, G2: 3.4 } } },
        { question: 'readings', value: { taps: { open: 1 }, bar: { G1: 3, G2: 0.5 } } },
      ]);
    expect(chanceOf(measured('sudden'), 'sediment-blocked')).toBeGreaterThan(0.9);
    expect(chanceOf(measured('gradual'), 'sediment-blocked')).toBeGreaterThan(0.9);
  });

  it('with spitting taps the tank is looked into before anybody hunts for a leak on the suction side', () => {
    const spits = judgeCase(plant, [
      ...quiet,
      { question: 'complaint', value: ['pulsing'] },
      { question: 'onset', value: 'gradual' },
      { question: 'pump-closed', value: 'stays-off' },
      { question: 'household', value: [] },
      { question: 'recent-work', value: [] },
      { question: 'pump-open', value: 'unknown' },
      { question: 'air-seen', value: 'spurts' },
    ]);
    expect(spits.causes[0]?.id).toBe('suction-air-leak');
    expect(spits.next?.question).toBe('tank-level');
  });
});

describe('what is not asked because it was told', () => {
  const asked = (answers: readonly { question: string; value: unknown }[]): string[] => {
    const given = [...answers];
    const ids: string[] = [];
    for (;;) {
      const { next } = judgeCase(plant, given);
      if (!next) return ids;
      ids.push(next.question);
      const value = next.ask ? { taps: next.ask.taps, bar: 'unknown' } : 'unknown';
      given.push({ question: next.question, value });
    }
  };
  const heard = (pump: string) => [
    { question: 'danger', value: [] },
    { question: 'complaint', value: ['no-water'] },
    { question: 'pump-open', value: pump },
  ];

  it('a pump that hums has its supply and a sound; who tells of it is told to unplug it', () => {
    expect(asked(heard('silent'))).toContain('power-at-pump');
    const left = asked(heard('hums'));
    expect(left).not.toContain('power-at-pump');
    expect(left).not.toContain('pump-sound');
  });

  it('who has no water is not asked what it looks, smells or tastes of', () => {
    for (const pump of ['silent', 'hums', 'runs-dry'])
      expect(asked(heard(pump)).filter((id) => /^(smell|taste|look)$/.test(id))).toEqual([]);
  });
});
