import type { Answer } from '../../../shared/case/answer.ts';
import type { AnswerRow } from '../../store/tables.ts';

/** A stored answer as it was sent. */
export function toAnswer(row: AnswerRow): Answer {
  return {
    answerId: row.answer_id,
    question: row.question,
    value: JSON.parse(row.value) as unknown,
    ...(row.at !== null && { at: row.at }),
  };
}

/** The plant as it now is: the latest answer that describes one, else as the case was opened. */
export function plantNow(opened: string | null, answers: readonly Answer[]): unknown {
  const changed = answers.findLast(
    ({ question, value }) => question === 'plant' && isObject(value),
  );
  return changed ? changed.value : opened === null ? undefined : (JSON.parse(opened) as unknown);
}

/** The plant's name, for the desk's list. */
export function nameOf(plant: unknown): string | null {
  const name = isObject(plant) && 'name' in plant ? plant.name : undefined;
  return typeof name === 'string' ? name.slice(0, 200) : null;
}

const isObject = (value: unknown): value is object => typeof value === 'object' && value !== null;
