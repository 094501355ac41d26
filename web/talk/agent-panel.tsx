import { useEffect } from 'hono/jsx/dom';
import type { Looked } from '../brain/protocol.ts';
import { chanceCount } from '../common/chance.ts';
import { goTo, onLink } from '../common/router.ts';
import { useSay } from '../common/words.ts';
import { lazy } from '../lazy.tsx';

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
  useNumberKeys();
  return (
    <section class="agent-panel" aria-label={say('heading-dispatch')}>
      <h2>{say('heading-dispatch')}</h2>
      {looked.earlier.length === 0 ? (
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
      {at?.startsWith('/api/desk/') ? <CallPanel base={at} /> : null}
    </section>
  );

  function useNumberKeys(): void {
    useEffect(() => {
      const press = (event: KeyboardEvent): void => {
        if (event.altKey || event.ctrlKey || event.metaKey || isTyping(event.target)) return;
        if (event.key === 'h') goTo(`${base}/hand-over`);
        const buttons = document.querySelectorAll<HTMLButtonElement>('.answers .choices .choice');
        const place = Number(event.key) - 1;
        if (Number.isInteger(place)) buttons[place]?.click();
        if (event.key === 'u')
          document.querySelector<HTMLButtonElement>('.other-answers .choice')?.click();
      };
      addEventListener('keydown', press);
      return () => removeEventListener('keydown', press);
    }, []);
  }
}

function isTyping(target: EventTarget | null): boolean {
  return target instanceof HTMLElement && /^(input|select|textarea)$/i.test(target.tagName);
}
