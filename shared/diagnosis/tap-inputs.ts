import type { SpokenReading } from '../case/facts.ts';
import { type Taps, tapsKey } from '../case/taps.ts';
import type { OpenTaps } from '../hydraulics/line/types.ts';
import { type Answered, flowKey, ONE_TAP } from './answered.ts';
import { flowSeen } from './measured.ts';
import type { Model } from './model.ts';
import type { Running } from './running.ts';
import type { TapInput } from './tap-state.ts';
import { flowChances } from './unread-state.ts';

/** A meter or a bucket and watch tells a household flow to about this share (common practice). */
const METER_SHARE = 0.06;
const BUCKET_SHARE = 0.07;
const NOTHING_HEARD: Running = { heard: null, motor: null, cycle: null, vacuumBar: null };

type OpenState = Exclude<Taps, 'closed'>;

/** The open tap states anything was read, heard or measured in. */
export function tapStatesOf(answered: Answered) {
  const states = new Map<
    string,
    { taps: OpenTaps | 'part-open'; readings: SpokenReading | null }
  >();
  for (const [key, readings] of answered.readings) {
    if (readings.taps !== 'closed') states.set(key, { taps: readings.taps, readings });
  }
  const add = (taps: OpenState) => {
    const key = tapsKey(taps);
    if (!states.has(key)) states.set(key, { taps, readings: null });
  };
  if (answered.running || answered.vacuum || answered.cycle?.value.taps === 'open')
    add(ONE_TAP as OpenState);
  if (answered.flow) add((answered.flow.value.taps ?? ONE_TAP) as OpenState);
  return states;
}

export function flowsOf(
  { curves }: Model,
  answered: Answered,
  key: string,
  readings: SpokenReading | null,
): TapInput['flows'] {
  const flows: TapInput['flows'][number][] = [];
  if (readings?.flowLpm !== undefined && answered.readingsQuestion) {
    flows.push({
      question: answered.readingsQuestion,
      seen: flowSeen(curves, readings.flowLpm, METER_SHARE),
    });
  }
  if (answered.flow && flowKey(answered) === key) {
    const { litres, seconds } = answered.flow.value;
    flows.push({
      question: answered.flow.question,
      seen: flowSeen(curves, (60 * litres) / seconds, BUCKET_SHARE),
    });
  }
  return flows;
}

export function pumpOf(
  answered: Answered,
  key: string,
  readings: SpokenReading | null,
): TapInput['pump'] {
  const pump: TapInput['pump'][number][] = [];
  if (readings?.pump && answered.readingsQuestion) {
    pump.push({
      question: answered.readingsQuestion,
      running: { ...NOTHING_HEARD, motor: readings.pump },
    });
  }
  if (key !== tapsKey(ONE_TAP as OpenState)) return pump;
  const { running, cycle, vacuum } = answered;
  if (running)
    pump.push({ question: running.question, running: { ...NOTHING_HEARD, heard: running.value } });
  if (cycle?.value.taps === 'open')
    pump.push({ question: cycle.question, running: { ...NOTHING_HEARD, cycle: cycle.value } });
  if (vacuum)
    pump.push({
      question: vacuum.question,
      running: { ...NOTHING_HEARD, vacuumBar: vacuum.value.bar },
    });
  return pump;
}

export function cleanFlow(model: Model, house: TapInput['house']): number {
  const clean = flowChances({ curves: model.curves, house }, model.sourceWith([]), [], 1);
  return Math.max(
    1,
    clean.reduce((sum, share, j) => sum + share * (model.curves.lpm[j] ?? 0), 0),
  );
}
