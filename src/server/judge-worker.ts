import { parentPort } from 'node:worker_threads';
import { InputError } from '../../shared/common/errors.ts';
import type { CaseInput } from './judge.ts';
import type { Judged } from './judge-pool.ts';
import { rulesJudge } from './rules-judge.ts';

/** A thread that does nothing but judge: a case in, a view or what was wrong out. */
const judge = rulesJudge(() => new Date());

parentPort?.on('message', (input: CaseInput) => {
  parentPort?.postMessage(judged(input));
});

function judged(input: CaseInput): Judged {
  try {
    return { view: judge.computeView(input) };
  } catch (error) {
    if (error instanceof InputError)
      return { refused: { where: error.where, message: error.message } };
    return { failed: error instanceof Error ? (error.stack ?? error.message) : String(error) };
  }
}
