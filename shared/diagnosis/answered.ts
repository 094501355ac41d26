import type { Facts, SpokenReading } from '../case/facts.ts';
import { tapsKey } from '../case/taps.ts';
import type { CycleTimes, FlowTest } from '../case/values.ts';
import type { OpenTaps } from '../hydraulics/line/types.ts';
import type { Question, RuleSet } from '../ruleset/schema.ts';

/** An answer with the question it came by. */
export interface By<T> {
  readonly question: string;
  readonly value: T;
}

/** The measured answers of a case, by what they are. */
export interface Answered {
  readonly readingsQuestion: string | null;
  /** by tap state, in the order of their keys */
  readonly readings: readonly (readonly [string, SpokenReading])[];
  readonly running: By<string> | null;
  readonly resting: By<string> | null;
  readonly flow: By<FlowTest> | null;
  readonly cycle: By<CycleTimes> | null;
  readonly vacuum: By<{ readonly bar: number }> | null;
  readonly shutOff: By<{ readonly bar: number; readonly gauge?: string }> | null;
  readonly holds: readonly (By<{ readonly lostBar: number; readonly minutes: number }> & {
    readonly isolated: boolean;
  })[];
  readonly precharge: By<{ readonly bar: number } | 'water-at-valve'> | null;
  readonly housing: By<{ readonly removed: readonly string[]; readonly result: string }> | null;
  readonly tank: By<{ readonly m: number } | string> | null;
}

/** A bucket test, a timed pump and what is heard with a tap open are all done at one ordinary tap, unless said otherwise. */
export const ONE_TAP: OpenTaps = { open: 1 };

export function answeredOf(facts: Facts, rules: RuleSet): Answered {
  const solved = Object.entries(rules.questions).filter(([, q]) => q.combine === 'solved');
  const given = <T>(fits: (q: Question) => boolean): (By<T> & { readonly table: Question })[] =>
    solved
      .filter(([id, question]) => fits(question) && facts.values.has(id))
      .map(([question, table]) => ({ question, table, value: facts.values.get(question) as T }));
  const one = <T>(fits: (q: Question) => boolean): By<T> | null => given<T>(fits)[0] ?? null;
  const readings = [...facts.readings].sort(([a], [b]) => (a < b ? -1 : 1));
  const readingsQuestion = solved.find(([, q]) => q.kind === 'readings')?.[0] ?? null;
  return {
    readingsQuestion: readings.length > 0 ? readingsQuestion : null,
    readings,
    running: one((q) => q.pump === 'running'),
    resting: one((q) => q.pump === 'resting'),
    flow: one((q) => q.kind === 'flow'),
    cycle: one((q) => q.kind === 'cycle-times'),
    vacuum: one((q) => q.kind === 'vacuum'),
    shutOff: one((q) => q.kind === 'pressure'),
    holds: given<{ lostBar: number; minutes: number }>((q) => q.kind === 'pressure-loss').map(
      ({ question, table, value }) => ({
        question,
        value,
        isolated: table.isolated === true,
      }),
    ),
    precharge: one((q) => q.kind === 'precharge'),
    housing: one((q) => q.kind === 'housing'),
    tank: one((q) => q.kind === 'tank-level'),
  };
}

/** Every question among them, in a fixed order. */
export function questionsIn(answered: Answered): string[] {
  const { readingsQuestion, readings: _, holds, ...single } = answered;
  const ids = [
    readingsQuestion,
    ...Object.values(single).map((by) => by?.question),
    ...holds.map((hold) => hold.question),
  ];
  return [...new Set(ids)].filter((id): id is string => typeof id === 'string').sort();
}

/** The tap state a flow test speaks about. */
export const flowKey = (answered: Answered): string | null =>
  answered.flow ? tapsKey(answered.flow.value.taps ?? ONE_TAP) : null;
