import { useRef, useState } from 'hono/jsx/dom';
import type { Answer } from '../../shared/case/answer.ts';
import { localTime } from '../../shared/common/local-time.ts';
import type { Step } from '../../shared/interview/step.ts';
import { brain, judgedAhead } from '../brain/client.ts';
import type { Checked, Looked, Wrong } from '../brain/protocol.ts';
import { afterPaint } from '../common/after-paint.ts';
import { newUuid } from '../common/ids.ts';
import { useSettings } from '../common/settings.ts';
import { useEffect } from '../common/use-effect.ts';
import { caseNow } from './case-now.ts';
import { changeCase, readCase } from './db.ts';
import { follow } from './follow.ts';
import { type KeptCase, waitingOf } from './kept.ts';
import { fromDesk } from './new-case.ts';
import { type Sync, sync } from './outbox.ts';
import { withoutGoingBack } from './without-going-back.ts';

/** A case on the screen: what is kept, what it comes to, and the ways to change it. */
export interface OpenCase {
  readonly kept: KeptCase;
  readonly looked: Looked;
  /** an answer is being judged */
  readonly busy: boolean;
  readonly sync: Sync;
  readonly wrong: Wrong | null;
  readonly answer: (step: Step, value: unknown) => void;
  readonly answerMany: (
    answers: readonly { readonly step: Step; readonly value: unknown }[],
  ) => void;
  readonly change: (change: (kept: KeptCase) => KeptCase | null) => void;
}

/** Undefined while loading; null when there is no such case here. */
export function useCase(key: string): OpenCase | null | undefined {
  const { settings } = useSettings();
  const [kept, setKept] = useState<KeptCase | null | undefined>(undefined);
  const [looked, setLooked] = useState<Looked | null>(null);
  const [busy, setBusy] = useState(false);
  const [state, setState] = useState<Sync>('waiting');
  const [wrong, setWrong] = useState<Wrong | null>(null);
  const turn = useRef(0);

  useEffect(() => {
    const changed = (event: Event): void => {
      const { detail } = event as CustomEvent<KeptCase>;
      if (detail.key === key) setKept((before) => withoutGoingBack(before, detail));
    };
    addEventListener('gaugewalk-case', changed);
    void readCase(key)
      .then((found) => fromDesk(key, found))
      .then(setKept);
    return () => removeEventListener('gaugewalk-case', changed);
  }, [key]);

  const base = kept?.base ?? null;
  useEffect(() => (base === null ? undefined : follow(key, base)), [key, base]);

  const { language, pressure, volume } = settings;
  useEffect(() => {
    if (!kept) return;
    turn.current = (turn.current ?? 0) + 1;
    const mine = turn.current;
    const take = (seen: Checked<Looked>): void => {
      if (mine !== turn.current) return;
      setBusy(false);
      if ('ok' in seen) setLooked(seen.ok);
      setWrong('wrong' in seen ? seen.wrong : null);
    };
    const now = caseNow(kept, settings);
    const known = judgedAhead(now);
    if (known) take(known);
    else setBusy(true);
    // asked also where it is known: the worker thinks on from here
    void brain.look(now).then((seen) => (known ? undefined : take(seen)));
  }, [kept?.answers, kept?.audience, kept?.plant, language, pressure, volume]);

  const waiting = kept ? waitingOf(kept) : 0;
  useEffect(() => {
    if (kept) void sync(key, language).then(setState);
  }, [key, waiting, kept?.key]);

  if (kept === null) return null;
  if (kept === undefined || looked === null) {
    return wrong && kept ? ({ kept, wrong } as OpenCase) : undefined;
  }

  const append = (answers: readonly Answer[]): void => {
    void changeCase(key, (now) => ({
      ...now,
      answers: [...now.answers, ...answers],
      changedAt: new Date().toISOString(),
    }));
    // the answer is seen to be touched first; then the next question is drawn, once
    afterPaint(() => {
      setKept((before) => before && withAnswers(before, answers));
      const known = judgedAhead(caseNow(withAnswers(kept, answers), settings));
      if (known && 'ok' in known) setLooked(known.ok);
    });
  };
  const made = (step: Step, value: unknown): Answer => ({
    answerId: newUuid(),
    question: step.question,
    value,
    at: localTime(new Date()),
  });
  return {
    kept,
    looked,
    busy,
    sync: state,
    wrong,
    answer: (step, value) => append([made(step, value)]),
    answerMany: (answers) => append(answers.map(({ step, value }) => made(step, value))),
    change: (change) => void changeCase(key, change),
  };
}

/** With those answers that it does not hold yet. */
export function withAnswers(kept: KeptCase, answers: readonly Answer[]): KeptCase {
  const held = new Set(kept.answers.map(({ answerId }) => answerId));
  const more = answers.filter(({ answerId }) => !held.has(answerId));
  return more.length === 0 ? kept : { ...kept, answers: [...kept.answers, ...more] };
}
