import { useState } from 'hono/jsx/dom';
import { useEffect } from '../common/use-effect.ts';
import { useSay } from '../common/words.ts';
import { SIGNED_OUT } from '../store/http.ts';
import { bringIntoView } from '../talk/bring-into-view.ts';
import { SignIn } from './sign-in.tsx';

/**
 * Says in the middle of a case that the server knows its reader no longer, and lets them sign in without leaving it: the
 * page is loaded anew, and what it kept meanwhile is sent.
 */
export function SignInEnded() {
  const say = useSay();
  const [ended, setEnded] = useState(false);
  const [asked, setAsked] = useState(false);
  useEffect(() => {
    const end = (): void => setEnded(true);
    addEventListener(SIGNED_OUT, end);
    return () => removeEventListener(SIGNED_OUT, end);
  }, []);
  useEffect(() => {
    if (ended) bringIntoView('.sign-in-ended');
  }, [ended]);
  if (!ended) return null;
  return (
    <div class="remark sign-in-ended">
      <p role="alert">{say('sign-in-ended-case')}</p>
      {asked ? (
        <SignIn onPerson={() => location.reload()} />
      ) : (
        <button type="button" class="choice" onClick={() => setAsked(true)}>
          {say('sign-in')}
        </button>
      )}
    </div>
  );
}
