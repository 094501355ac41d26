import type { Step } from '../../shared/interview/step.ts';
import { keptLooks, keyOf } from './kept-looks.ts';
import type { CaseNow, Checked, Looked } from './protocol.ts';

/** More choices than these are not judged ahead: the reader is faster. */
const MOST_CHOICES = 9;

/**
 * While a question is being read, the case is judged for each answer that is offered, so that the next question stands
 * there when one is touched. Judging is a pure function of the answers, so what was judged ahead is simply kept.
 * @param tell hears of each, so that the page need not ask when the time comes
 */
export function createAhead(
  judge: (now: CaseNow) => Promise<Checked<Looked>>,
  tell: (key: string, looked: Checked<Looked>) => void,
) {
  const kept = keptLooks();
  let turn = 0;

  async function judged(key: string, now: CaseNow): Promise<Checked<Looked>> {
    const before = kept.get(key);
    if (before) return before;
    const looked = await judge(now);
    kept.set(key, looked);
    return looked;
  }

  async function tellOf(now: CaseNow): Promise<void> {
    const key = keyOf(now);
    tell(key, await judged(key, now));
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
      await tellOf(withAnswer(now, card.step.question, value));
    }
  }

  return {
    async look(now: CaseNow): Promise<Checked<Looked>> {
      turn += 1;
      const mine = turn;
      const looked = await judged(keyOf(now), now);
      setTimeout(() => void ponder(now, looked, mine));
      return looked;
    },
    /** judges one answer that is likely to come */
    think(now: CaseNow, step: Step, value: unknown): void {
      turn += 1;
      const mine = turn;
      setTimeout(() => {
        if (mine === turn) void tellOf(withAnswer(now, step.question, value));
      });
    },
    forget: kept.clear,
  };
}

function withAnswer(now: CaseNow, question: string, value: unknown): CaseNow {
  return { ...now, answers: [...now.answers, { question, value, at: `${now.day}T00:00:00Z` }] };
}

/** Lets waiting calls go first. */
const pause = (): Promise<void> => new Promise((resolve) => setTimeout(resolve));
