import type { OpenCase } from '../store/use-case.ts';
import { ClosedNotice } from './closed-notice.tsx';
import { SignInEnded } from './sign-in-ended.tsx';
import { isAtDesk } from './signed-in.ts';

/** What happened to a case on the server that whoever works on it must know. */
export function Notices({ open }: { readonly open: OpenCase }) {
  const { base } = open.kept;
  if (!isAtDesk(base)) return null;
  return (
    <>
      <SignInEnded />
      <ClosedNotice open={open} at={base} />
    </>
  );
}
