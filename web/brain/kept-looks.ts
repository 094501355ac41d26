import type { CaseNow, Checked, Looked } from './protocol.ts';

const KEPT = 60;

/** What the latest cases came to, by their key. */
export function keptLooks() {
  const looks = new Map<string, Checked<Looked>>();
  return {
    get: (key: string): Checked<Looked> | undefined => looks.get(key),
    set(key: string, looked: Checked<Looked>): void {
      looks.set(key, looked);
      const oldest = looks.keys().next().value;
      if (looks.size > KEPT && oldest !== undefined) looks.delete(oldest);
    },
    clear: (): void => looks.clear(),
  };
}

/** Two cases that differ only in the hour or the id of an answer are judged alike. */
export function keyOf({ plant, answers, audience, day, units }: CaseNow): string {
  return JSON.stringify([
    plant,
    answers.map(({ question, value, at }) => [question, value, at?.slice(0, 10) ?? day]),
    audience,
    day,
    units,
  ]);
}
