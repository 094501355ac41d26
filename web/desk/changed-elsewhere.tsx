import { useRef, useState } from 'hono/jsx/dom';
import type { Earlier } from '../brain/protocol.ts';
import { useEffect } from '../common/use-effect.ts';
import { useSay } from '../common/words.ts';
import type { KeptCase } from '../store/kept.ts';
import type { OpenCase } from '../store/use-case.ts';

interface Change {
  readonly label: string;
  readonly was: string;
  /** null: taken back */
  readonly now: string | null;
}

/** Says which answers others changed while the case stood here, and from what: a later answer replaces an earlier one. */
export function ChangedElsewhere({ open }: { readonly open: OpenCase }) {
  const say = useSay();
  const { kept, looked, busy } = open;
  const [changes, setChanges] = useState<readonly Change[]>([]);
  const answers = useRef(kept.answers);
  const earlier = useRef(looked.earlier);
  const theirs = useRef<readonly string[]>([]);
  useEffect(() => {
    theirs.current = [...(theirs.current ?? []), ...newFromOthers(answers.current ?? [], kept)];
    answers.current = kept.answers;
  }, [kept.answers]);
  // what they say stands there once it is judged
  useEffect(() => {
    if (busy) return;
    const found = changedIn(theirs.current ?? [], earlier.current ?? [], looked.earlier);
    if (found.length > 0) setChanges((before) => [...before, ...found]);
    theirs.current = [];
    earlier.current = looked.earlier;
  }, [looked, busy]);
  if (changes.length === 0) return null;
  return (
    <div class="remark changed-elsewhere" role="status">
      {changes.map(({ label, was, now }) => (
        <p>
          {now === null
            ? say('taken-back-elsewhere', { label, was })
            : say('changed-elsewhere', { label, now, was })}
        </p>
      ))}
      <button type="button" class="choice plain" onClick={() => setChanges([])}>
        {say('changes-seen')}
      </button>
    </div>
  );
}

/** The questions of answers that were on the server before they were here: what is answered here is here first. */
function newFromOthers(before: KeptCase['answers'], { answers, sent }: KeptCase): string[] {
  const known = new Set(before.map(({ answerId }) => answerId));
  return answers
    .slice(0, sent)
    .filter(({ answerId }) => !known.has(answerId))
    .map(({ question }) => question);
}

/** Work that is done makes much answered before it void, which is no change of an answer. */
function changedIn(
  theirs: readonly string[],
  before: readonly Earlier[],
  after: readonly Earlier[],
): Change[] {
  if (theirs.includes('work-done')) return [];
  return before
    .filter(({ step }) => theirs.includes(step.question))
    .map(({ key, label, text }) => ({
      ...{ label, was: text },
      now: after.find((one) => one.key === key)?.text ?? null,
    }))
    .filter(({ was, now }) => was !== now);
}
