import type { Looked } from '../brain/protocol.ts';
import { chanceCount } from '../common/chance.ts';
import { goTo, onLink } from '../common/router.ts';
import { useEffect } from '../common/use-effect.ts';
import { useSay } from '../common/words.ts';
import { lazy } from '../lazy.tsx';
import { isTooEarly } from '../ranking/leading.tsx';
import { answerKeys } from './choices.tsx';

const CallPanel = lazy(() => import('../desk/call-panel.tsx').then((file) => file.CallPanel));

interface Props {
  readonly looked: Looked;
  readonly base: string;
  /** where the server keeps the case */
  readonly at: string | null;
}

/** Phone or visit: the decision, who goes, what to load, and the chance that one visit is enough. */
export function AgentPanel({ looked, base, at }: Props) {
  const say = useSay();
  const { decision, who, oneVisit, priority } = looked.result.dispatch;
  useAnswerKeys();
  return (
    <section class="agent-panel" aria-label={say('heading-dispatch')}>
      <h2>{say('heading-dispatch')}</h2>
      {isTooEarly(looked) ? (
        <p>{say('nothing-told')}</p>
      ) : (
        <>
          <p class="decision">
            {say(`dispatch-${decision}`, { who: who ? say(`who-${who}`) : '' })}{' '}
            {say('priority', { priority: say(`priority-${priority}`) })}
          </p>
          {looked.van.length > 0 ? (
            <>
              <h3>{say('van-list')}</h3>
              <ul>
                {looked.van.map((item) => (
                  <li key={item}>{item}</li>
                ))}
              </ul>
            </>
          ) : null}
          {oneVisit === null ? null : (
            <p>{say('dispatch-one-visit', { probability: chanceCount(oneVisit, say) })}</p>
          )}
        </>
      )}
      <p>
        <a class="choice" href={`${base}/hand-over`} onClick={onLink}>
          {say('to-hand-over')}
        </a>
      </p>
      <p class="small">{say('keys')}</p>
      {at?.startsWith('/api/desk/') ? (
        <CallPanel base={at} stopped={looked.result.stopped !== null} />
      ) : null}
    </section>
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
