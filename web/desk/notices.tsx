import { useSay } from '../common/words.ts';
import { waitingOf } from '../store/kept.ts';
import type { OpenCase } from '../store/use-case.ts';
import { AtWork } from './at-work.tsx';
import { ChangedElsewhere } from './changed-elsewhere.tsx';
import { ClosedNotice } from './closed-notice.tsx';
import { SignInEnded } from './sign-in-ended.tsx';
import { isAtDesk } from './signed-in.ts';

/** What happened to a case on the server that whoever works on it must know, at its questions and at its jobs. */
export function Notices({ open, isAtJob }: { readonly open: OpenCase; readonly isAtJob?: true }) {
  const say = useSay();
  const { kept, sync } = open;
  const { base } = kept;
  return (
    <>
      {isAtDesk(base) ? (
        <>
          {/* others at the desk see nothing of it so far, a danger sign neither */}
          {sync === 'waiting' && waitingOf(kept) > 0 ? (
            <p class="remark" role="status">
              {say('sync-waiting')}
            </p>
          ) : null}
          <SignInEnded />
          <ClosedNotice open={open} at={base} />
        </>
      ) : null}
      <ChangedElsewhere open={open} />
      {isAtJob ? null : <AtWork open={open} />}
    </>
  );
}
