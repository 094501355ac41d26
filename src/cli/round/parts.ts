import type { Field, Filled, Form } from '../../../shared/interview/form.ts';
import type { Quantity } from '../../../shared/interview/units.ts';
import type { HistoryEntry } from '../../history/csv.ts';
import type { Say } from '../io.ts';

/** What a round has read so far: bar by gauge, L/min, °C. */
export interface Round {
  readonly closed?: Readonly<Record<string, number>>;
  readonly opened?: Readonly<Record<string, number>>;
  readonly flowLpm?: number;
  readonly waterTempC?: number;
}

/** One part of a round; what is filled in makes a piece of the round. */
export interface RoundPart {
  readonly text: string;
  readonly form: Form;
}

/** Every gauge with the taps shut, again with taps open, a bucket, the temperature; any of them may be left out. */
export function roundParts(gauges: readonly string[], open: number, say: Say): RoundPart[] {
  const readings = (key: 'closed' | 'opened', text: string): RoundPart => ({
    text,
    form: {
      fields: gauges.map((gauge) => figure(gauge, 'pressure', say('ask-gauge-shows', { gauge }))),
      valueOf: (filled): Round => ({ [key]: known(filled) }),
    },
  });
  return [
    readings('closed', say('round-closed')),
    readings('opened', say(open === 1 ? 'round-open' : 'round-open-many', { n: open })),
    { text: say('round-flow'), form: bucketForm(say) },
    {
      text: say('round-temperature'),
      form: { fields: [figure('waterTempC', 'number', null)], valueOf: known },
    },
  ];
}

function bucketForm(say: Say): Form {
  return {
    fields: [
      figure('litres', 'volume', say('ask-flow-litres')),
      { ...figure('seconds', 'seconds', say('ask-flow-seconds')), onlyAfter: ['litres'] },
    ],
    valueOf: (filled): Round => {
      const { litres, seconds } = known(filled);
      if (litres === undefined || seconds === undefined) return {};
      return { flowLpm: Math.round((litres / seconds) * 60 * 100) / 100 };
    },
  };
}

const figure = (key: string, quantity: Quantity, text: string | null): Field => ({
  ...{ kind: 'figure', key, quantity, text, orWords: [], mayBeLeftOut: true },
});

const known = (filled: Readonly<Record<string, Filled>>): Record<string, number> =>
  Object.fromEntries(
    Object.entries(filled).flatMap(([key, value]) =>
      typeof value === 'number' ? [[key, value]] : [],
    ),
  );

/** The round as the record holds it: an entry for each state of the taps at which a gauge was read. */
export function entriesOf(round: Round, at: string, open: number): HistoryEntry[] {
  const { closed = {}, opened = {}, flowLpm, waterTempC } = round;
  const temperature = waterTempC === undefined ? {} : { waterTempC };
  const flow = flowLpm === undefined ? {} : { flowLpm };
  const entries: HistoryEntry[] = [
    { at, taps: 'closed', bar: closed, ...temperature },
    { at, taps: { open }, bar: opened, ...flow, ...temperature },
  ];
  return entries.filter(({ bar }) => Object.keys(bar).length > 0);
}
