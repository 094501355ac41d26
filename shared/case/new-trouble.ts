import type { RuleSet } from '../ruleset/schema.ts';
import type { Answer } from './answer.ts';
import { tellsOfWork } from './work-done.ts';

/**
 * What was seen and read when the last work was proved, once a later day brings a new trouble: the places in the list of
 * answers that no longer speak. A supply that ran well after the work cannot speak against what is told a week later.
 */
export function beforeNewTrouble(
  answers: readonly Answer[],
  { head, questions, dangers }: RuleSet,
): ReadonlySet<number> {
  const work = answers.findLastIndex(tellsOfWork);
  const told = answers.findIndex(
    ({ question, value }, i) => i > work && question === head.newTrouble && value !== null,
  );
  const day = answers[told]?.at?.slice(0, 10);
  if (work < 0 || day === undefined) return new Set();
  const isPast = ({ question, at }: Answer): boolean => {
    const table = questions[question];
    return (
      table !== undefined && table.combine !== 'none' && at !== undefined && at.slice(0, 10) < day
    );
  };
  const places = answers.flatMap((answer, i) => (isPast(answer) && i > work ? [i] : []));
  const past = [...places, ...safeThen(answers, day, questions, dangers)];
  return new Set(past.filter((i) => i < told));
}

/** That nothing was dangerous on an earlier day says nothing of today: whatever came to it is past, and it is asked anew. */
function safeThen(
  answers: readonly Answer[],
  day: string,
  questions: RuleSet['questions'],
  dangers: RuleSet['dangers'],
): number[] {
  const isOfDanger = ({ question, at }: Answer): boolean => {
    const signs = questions[question]?.answers ?? [];
    const isBefore = at !== undefined && at.slice(0, 10) < day;
    return isBefore && signs.length > 0 && signs.every((id) => dangers[id]);
  };
  const places = answers.flatMap((answer, i) => (isOfDanger(answer) ? [i] : []));
  const latest = answers[places.at(-1) ?? -1]?.value;
  return Array.isArray(latest) && latest.length === 0 ? places : [];
}
