import type { CaseNow, Checked, Looked } from './protocol.ts';

const KEPT = 60;
/** More choices than these are not judged ahead: the reader is faster. */
const MOST_CHOICES = 9;

/**
 * While a question is being read, the case is judged for each answer that is offered, so that the next question stands
 * there when one is touched. Judging is a pure function of the answers, so what was judged ahead is simply kept.
 */
export function createAhead(judge: (now: CaseNow) => Promise<Checked<Looked>>) {
  const kept = new Map<string, Checked<Looked>>();
  let turn = 0;

  async function judged(now: CaseNow): Promise<Checked<Looked>> {
    const key = keyOf(now);
    const before = kept.get(key);
    if (before) return before;
    const looked = await judge(now);
    kept.set(key, looked);
    const oldest = kept.keys().next().value;
    if (kept.size > KEPT && oldest !== undefined) kept.delete(oldest);
    return looked;
  }

  async function ponder(now: CaseNow, looked: Checked<Looked>, mine: number): Promise<void> {
    const card = 'ok' in looked ? looked.ok.card : null;
    const field = card?.fields.length === 1 ? card.fields[0] : undefined;
    if (!card || !field || (field.kind !== 'one' && field.kind !== 'many')) return;
    const ids = field.options.map((option) => option.id).slice(0, MOST_CHOICES);
    const values = field.kind === 'many' ? [[], ...ids.map((id) => [id])] : ids;
    for (const value of [...values, 'unknown']) {
      await pause();
      if (mine !== turn) return;
      const answer = { question: card.step.question, value, at: `${now.day}T00:00:00Z` };
      await judged({ ...now, answers: [...now.answers, answer] });
    }
  }

  return {
    async look(now: CaseNow): Promise<Checked<Looked>> {
      turn += 1;
      const mine = turn;
      const looked = await judged(now);
      setTimeout(() => void ponder(now, looked, mine));
      return looked;
    },
    forget: () => kept.clear(),
  };
}

/** Lets waiting calls go first. */
const pause = (): Promise<void> => new Promise((resolve) => setTimeout(resolve));

/** Two cases that differ only in the hour or the id of an answer are judged alike. */
function keyOf({ plant, answers, audience, day, units }: CaseNow): string {
  return JSON.stringify([
    plant,
    answers.map(({ question, value, at }) => [question, value, at?.slice(0, 10) ?? day]),
    audience,
    day,
    units,
  ]);
}
