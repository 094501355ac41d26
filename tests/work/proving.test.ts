import { expect, it } from 'vitest';
import type { SegmentReading } from '../../shared/diagnosis/result.ts';
import { readyMade } from '../../shared/plant/ready-made.ts';
import { parsePlant } from '../../shared/plant/schema.ts';
import { type Measured, proveWork } from '../../shared/work/proving.ts';
import { carefulLines, today, worked } from './session.ts';

const segment = (dropBar: number): SegmentReading => ({
  ...{ from: 'G1', to: 'G2', parts: ['valve-1', 'sed-1'], taps: { open: 1 }, dropBar },
  ...{ uncertaintyBar: 0.1, tooSmall: false, flowLpm: 5, timesClean: dropBar * 40, measured: true },
});
const known = (causes: Record<string, number>, dropBar: number): Measured => ({
  causes: Object.entries(causes).map(([id, probability]) => ({ id, probability })),
  segments: [segment(dropBar)],
});
const outcome = (before: Measured, after: Measured, part: string | null = 'sed-1') =>
  proveWork(before, after, 'sediment-blocked', part).outcome;

const blocked = known({ 'sediment-blocked': 0.9, 'valve-part-closed': 0.08 }, 1.9);

it('a drop that stayed as it was is no improvement, whatever else is blamed now', () => {
  const asBefore = known({ 'sediment-blocked': 0.05, 'valve-part-closed': 0.9 }, 1.88);
  expect(outcome(blocked, asBefore)).toBe('no-change');
  // for what does not hinder the water the drop says nothing
  expect(outcome(blocked, asBefore, null)).toBe('better');
});

it('a drop that fell beyond its uncertainty is one, even where something is left', () => {
  const less = known({ 'sediment-blocked': 0.05, 'valve-part-closed': 0.9 }, 0.9);
  expect(outcome(blocked, less)).toBe('better');
  expect(outcome(less, blocked)).toBe('worse');
});

it('what takes more than before, but no more than a clean part, is not worse: a bypass was shut', () => {
  const finely = (dropBar: number): Measured => ({
    causes: [{ id: 'bypass-open', probability: 0.02 }],
    segments: [{ ...segment(dropBar), uncertaintyBar: 0.002 }],
  });
  const shut = (dropBar: number) =>
    proveWork(finely(0.005), finely(dropBar), 'bypass-open', 'sed-1');
  expect(shut(0.025).outcome).toBe('cured');
  expect(shut(0.05).outcome).toBe('worse');
});

it('nothing left is the end of it', () => {
  expect(outcome(blocked, known({ 'sediment-blocked': 0.02 }, 0.05))).toBe('cured');
});

it('nothing left to blame is no end of it while the part still takes what a blocked one does', () => {
  expect(outcome(blocked, known({ 'sediment-blocked': 0.02 }, 1.9))).toBe('no-change');
  expect(outcome(blocked, known({ 'sediment-blocked': 0.02 }, 0.9))).toBe('better');
});

it('a new cartridge that changed nothing at the gauges has not ended the trouble', async () => {
  const plant = readyMade.find(({ id }) => id === 'three-stages-uv-last')!.plant;
  const closed = { bar: { G1: 3.4, G2: 3.4, G3: 3.4 }, flowLpm: 0 };
  const open = { bar: { G1: 2.9, G2: 2.8, G3: 0.9 }, flowLpm: 4.6 };
  const theCase = {
    ...{ plant, today },
    answers: [
      { question: 'danger', value: [] },
      { question: 'complaint', value: ['weak'] },
      { question: 'readings', value: { taps: 'closed', bar: closed.bar } },
      { question: 'readings', value: { taps: { open: 1 }, bar: open.bar } },
    ],
  };
  const job = 'change-carbon';
  const { records } = await worked(theCase, carefulLines(theCase, { job, closed, open }), [
    '--job',
    job,
  ]);
  expect(records.at(-1)?.proof?.outcome).toBe('no-change');
});

it.each([
  [0.9, false],
  [0, true],
])(
  'a new check valve behind which %d bar is lost in ten minutes has ended the trouble: %s',
  async (lostBar, isEnded) => {
    const plant = parsePlant({
      name: 'Fernhollow bore',
      line: [
        { id: 'tank', kind: 'tank' },
        { id: 'pump', kind: 'pump', submersible: true, control: { kind: 'pressure-switch' } },
        { id: 'cv', kind: 'check-valve' },
        { id: 'vessel', kind: 'vessel', volumeL: 35 },
        { id: 'v1', kind: 'valve' },
        { id: 'G1', kind: 'gauge' },
        { id: 'house', kind: 'house' },
      ],
    });
    const lost = { lostBar: 0.9, minutes: 10 };
    const told = {
      ...{ danger: [], complaint: ['pump-restless'], 'pump-open': 'cycles-slow' },
      ...{ 'pump-closed': 'short-bursts', 'pressure-hold': lost, 'pressure-hold-isolated': lost },
    };
    const theCase = {
      ...{ plant, today },
      answers: Object.entries(told).map(([question, value]: [string, unknown]) => ({
        question,
        value,
      })),
    };
    const job = 'change-check-valve';
    const [closed, open] = [
      { bar: { G1: 3 }, flowLpm: 0 },
      { bar: { G1: 2.7 }, flowLpm: 10.6 },
    ];
    const found = { job, part: 'cv', closed, open, lostBar };
    const { records } = await worked(theCase, carefulLines(theCase, found), [
      '--job',
      job,
      '--part',
      'cv',
    ]);
    expect(records[0]?.proof?.outcome === 'cured').toBe(isEnded);
  },
);

it.each([
  ['none', 'cured'],
  ['rotten-egg', 'no-change'],
] as const)(
  'a tank rid of its sludge, after which the water smells of %s: %s',
  async (smell, end) => {
    const { plant } = readyMade.find(({ id }) => id === 'three-stages-uv-last')!;
    const told = { danger: [], complaint: ['smell'], scope: 'whole-house', smell: 'rotten-egg' };
    const theCase = {
      ...{ plant, today },
      answers: Object.entries(told).map(([question, value]: [string, unknown]) => ({
        question,
        value,
      })),
    };
    const job = 'desludge-tank';
    const [closed, open] = [
      { bar: { G1: 3, G2: 3, G3: 3 }, flowLpm: 0 },
      { bar: { G1: 2.7, G2: 2.7, G3: 2.6 }, flowLpm: 10.6 },
    ];
    const found = { job, closed, open, says: { 'smell-again': smell } };
    const { records } = await worked(theCase, carefulLines(theCase, found), ['--job', job]);
    expect(records.at(-1)?.proof?.outcome).toBe(end);
  },
);
