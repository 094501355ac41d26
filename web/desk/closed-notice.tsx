import { useSay } from '../common/words.ts';
import type { OpenCase } from '../store/use-case.ts';
import { useBeside } from './use-beside.ts';

interface Props {
  readonly open: OpenCase;
  readonly at: string;
}

/** Says that a case is closed, and how. What anybody answers opens it again, so each answer that arrives is a reason to look. */
export function ClosedNotice({ open, at }: Props) {
  const say = useSay();
  const desk = useBeside(at, open.kept.sent).beside?.desk;
  if (desk?.state !== 'closed') return null;
  return (
    <p class="remark" role="status">
      {say('case-closed', { how: say(`closed-${desk.closedHow}`) })}
    </p>
  );
}
