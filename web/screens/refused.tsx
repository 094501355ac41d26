import { useEffect } from '../common/use-effect.ts';
import { useSay } from '../common/words.ts';
import type { OpenCase } from '../store/use-case.ts';
import { bringIntoView } from '../talk/bring-into-view.ts';

/** Says what the server could not take and nothing was answered in its stead: others on the case do not know of it. */
export function Refused({ open: { kept, looked } }: { readonly open: OpenCase }) {
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
  const count = given.length + others.length;
  // the reply comes when the next question already stands at the top of a phone
  useEffect(() => {
    if (count > 0) bringIntoView('.case-head .wrong');
  }, [count]);
  return [
    ...given.map(({ label, text }) => `${label}: ${text}`),
    ...others.map(() => say('not-taken-other')),
  ].map((what) => (
    <p class="wrong" role="status">
      {say('not-taken', { what })}
    </p>
  ));
}
