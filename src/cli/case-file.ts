import { caseSchema } from '../../shared/case/answer.ts';
import { InputError } from '../../shared/common/errors.ts';
import type { Case } from '../../shared/diagnosis/diagnose.ts';
import { messageOf, placeOf } from '../../shared/plant/messages.ts';

/**
 * Reads a case from parsed JSON. What the plant and the answers hold is checked later, against the rule set.
 * @throws InputError naming the field
 */
export function parseCase(input: unknown): Case {
  const result = caseSchema.safeParse(input, { reportInput: true });
  if (result.success) return result.data;
  const issue = result.error.issues[0];
  if (!issue || issue.path.length + Number(issue.code === 'unrecognized_keys') === 0) {
    throw new InputError('case', 'must be an object with "plant" and "answers"');
  }
  throw new InputError(placeOf('', issue), messageOf(issue));
}

/** Runs something and puts the file's name before the place of what it refuses. */
export function inFile<T>(file: string, run: () => T): T {
  try {
    return run();
  } catch (error) {
    if (error instanceof InputError) {
      throw new InputError(`${file}: ${error.where}`, error.message);
    }
    throw error;
  }
}
