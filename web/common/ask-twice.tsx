import { useRef, useState } from 'hono/jsx/dom';
import { useEffect } from './use-effect.ts';
import { useSay } from './words.ts';

interface Props {
  /** what the button says at first, and what it says once pressed */
  readonly ask: string;
  readonly sure: string;
  readonly label?: string;
  readonly onSure: () => void;
}

/** A button for what cannot be taken back: the first press only asks whether it is meant. */
export function AskTwice({ ask, sure, label, onSure }: Props) {
  const say = useSay();
  const [asked, setAsked] = useState<boolean | null>(null);
  const focused = useRef<HTMLElement>(null);
  // what had the focus is gone: whoever has keys only goes on from here
  useEffect(() => {
    if (asked !== null) focused.current?.focus();
  }, [asked]);
  if (!asked) {
    return (
      <button
        type="button"
        class="choice plain"
        ref={focused}
        aria-label={label}
        onClick={() => setAsked(true)}
      >
        {ask}
      </button>
    );
  }
  return (
    <div class="row" tabindex={-1} ref={focused}>
      <button
        type="button"
        class="choice"
        onClick={() => {
          setAsked(false);
          onSure();
        }}
      >
        {sure}
      </button>
      <button type="button" class="choice plain" onClick={() => setAsked(false)}>
        {say('leave-as-it-was')}
      </button>
    </div>
  );
}
