import { useEffect } from '../common/use-effect.ts';
import { useSay } from '../common/words.ts';
import type { OpenCase } from '../store/use-case.ts';
import { bringIntoView } from '../talk/bring-into-view.ts';

/** Says what the server could not take, the case itself or answers nothing else was given for: others do not know of it. */
export function Refused({ open: { kept, looked, sync } }: { readonly open: OpenCase }) {
  const say = useSay();
  const taps = (value: unknown): string =>
    JSON.stringify((value as { readonly taps?: unknown } | null)?.taps);
  const given = looked.earlier.filter(
    ({ step }) =>
      kept.answers.findLast(
        ({ question, value }) =>
          question === step.question && (!step.taps || taps(value) === taps(step)),
      )?.refused,
  );
  const others = kept.answers.filter(
    ({ question, refused }) => refused && ['plant', 'work-done'].includes(question),
  );
  const told = [
    ...(sync === 'refused' ? [say('sync-refused')] : []),
    ...[
      ...given.map(({ label, text }) => `${label}: ${text}`),
      ...others.map(() => say('not-taken-other')),
    ].map((what) => say('not-taken', { what })),
  ];
  const count = told.length;
  // the reply comes when the next question already stands at the top of a phone
  useEffect(() => {
    if (count > 0) bringIntoView('.case-head .wrong');
  }, [count]);
  return told.map((text) => (
    <p class="wrong" role="status">
      {text}
    </p>
  ));
}
