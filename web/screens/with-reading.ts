import type { Answer } from '../../shared/case/answer.ts';
import type { Taps } from '../../shared/case/taps.ts';
import type { Step } from '../../shared/interview/step.ts';

type Bar = Readonly<Record<string, number | 'unknown'>>;

/** One gauge typed in at the drawing: the other readings of the same state of the taps stay as they were. */
export function withReading(
  answers: readonly Answer[],
  gauge: string,
  state: 'closed' | 'open',
  bar: number,
  openTaps: Taps,
): { readonly step: Step; readonly value: unknown } {
  const taps: Taps = state === 'closed' ? 'closed' : openTaps;
  const same = JSON.stringify(taps);
  const before = answers.findLast(({ question, value }) => {
    return (
      question === 'readings' && JSON.stringify((value as { taps?: Taps } | null)?.taps) === same
    );
  })?.value as { readonly bar?: Bar | 'unknown' } | undefined;
  const known = typeof before?.bar === 'object' ? before.bar : {};
  return {
    step: { question: 'readings', taps },
    value: { ...before, taps, bar: { ...known, [gauge]: bar } },
  };
}
