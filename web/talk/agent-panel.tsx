import type { Plant } from '../../shared/plant/schema.ts';
import type { Looked } from '../brain/protocol.ts';
import { onLink } from '../common/router.ts';
import { useWide } from '../common/use-wide.ts';
import { useSay } from '../common/words.ts';
import { CallPanel } from '../desk/call-panel.tsx';
import { isAtDesk, signedInRole } from '../desk/signed-in.ts';
import { useAgentKeys } from './agent-keys.ts';
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
  useAgentKeys(base);
  return (
    <div class="agent-panel">
      {useWide() ? null : <Decided looked={looked} />}
      <nav class="ways-on" aria-label={say('ways-on')}>
        <a class="choice" href={`${base}/hand-over`} onClick={onLink}>
          <span class="number">h</span> {say('to-hand-over')}
        </a>
        <a class="choice" href={`${base}/plant`} onClick={onLink}>
          <span class="number">p</span> {say('to-plant')}
        </a>
      </nav>
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
}
