import type { Plant } from '../../shared/plant/schema.ts';
import type { Looked } from '../brain/protocol.ts';
import { goTo, onLink } from '../common/router.ts';
import { useEffect } from '../common/use-effect.ts';
import { useWide } from '../common/use-wide.ts';
import { useSay } from '../common/words.ts';
import { CallPanel } from '../desk/call-panel.tsx';
import { isAtDesk, signedInRole } from '../desk/signed-in.ts';
import { answerKeys } from './choices.tsx';
import { Decided } from './decision.tsx';

interface Props {
  readonly looked: Looked;
  readonly base: string;
  /** where the server keeps the case */
  readonly at: string | null;
  readonly onPlant: (plant: Plant) => void;
}

/** What an agent does beside the talk: decide, hand over, keep what was agreed on the telephone. */
export function AgentPanel({ looked, base, at, onPlant }: Props) {
  const say = useSay();
  useAnswerKeys();
  return (
    <div class="agent-panel">
      {useWide() ? null : <Decided looked={looked} />}
      <p>
        <a class="choice" href={`${base}/hand-over`} onClick={onLink}>
          {say('to-hand-over')}
        </a>
      </p>
      <p class="small">{say('keys')}</p>
      {/* what stands beside the case a technician has at the top */}
      {isAtDesk(at) && signedInRole() !== 'technician' ? (
        <CallPanel
          base={at}
          name={looked.plant.name}
          onName={(name) => onPlant({ ...looked.plant, name })}
          stopped={looked.result.stopped !== null}
        />
      ) : null}
    </div>
  );

  function useAnswerKeys(): void {
    useEffect(() => {
      const press = (event: KeyboardEvent): void => {
        if (event.altKey || event.ctrlKey || event.metaKey || isTyping(event.target)) return;
        if (event.key === 'h') goTo(`${base}/hand-over`);
        const buttons = document.querySelectorAll<HTMLButtonElement>('.answers .choices .choice');
        buttons[answerKeys.indexOf(event.key)]?.click();
        if (event.key === '0') pressFirst('.answers > .main');
        if (event.key === 'u') pressFirst('.other-answers .choice');
      };
      addEventListener('keydown', press);
      return () => removeEventListener('keydown', press);
    }, []);
  }
}

const pressFirst = (selector: string): void =>
  document.querySelector<HTMLButtonElement>(selector)?.click();

function isTyping(target: EventTarget | null): boolean {
  return target instanceof HTMLElement && /^(input|select|textarea)$/i.test(target.tagName);
}
