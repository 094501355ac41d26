import { useState } from 'hono/jsx/dom';
import { useSay } from '../common/words.ts';
import type { OpenCase } from '../store/use-case.ts';
import { reopenCase } from './api.ts';
import { useBeside } from './use-beside.ts';

interface Props {
  readonly open: OpenCase;
  readonly at: string;
}

/** Says that a case is closed, and how, or that it is given to somebody else. What anybody answers opens it again, so each answer that arrives is a reason to look. */
export function ClosedNotice({ open, at }: Props) {
  const say = useSay();
  const { beside, read } = useBeside(at, open.kept.sent + open.kept.answers.length);
  const [failed, setFailed] = useState(false);
  if (open.kept.closed) {
    return (
      <p class="remark" role="status">
        {say('case-taken')}
      </p>
    );
  }
  if (beside?.desk.state !== 'closed') return null;
  return (
    <div class="remark" role="status">
      <p>{say('case-closed', { how: say(`closed-${beside.desk.closedHow}`) })}</p>
      <button
        type="button"
        class="choice plain"
        onClick={() => void reopenCase(at).then(read, () => setFailed(true))}
      >
        {say('reopen-case')}
      </button>
      {failed ? <p role="alert">{say('desk-not-kept')}</p> : null}
    </div>
  );
}
