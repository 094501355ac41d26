import type { Child } from 'hono/jsx/dom';
import { readyMade } from '../../shared/plant/ready-made.ts';
import type { Plant } from '../../shared/plant/schema.ts';
import { loneKey } from '../common/typed-key.ts';
import { useEffect } from '../common/use-effect.ts';
import { useSay } from '../common/words.ts';
import { answerKeys } from '../talk/choices.tsx';
import { Paragraphs } from '../talk/paragraphs.tsx';
import { MiniLine } from './mini-line.tsx';

interface Props {
  /** for somebody on the telephone: asked aloud, and a key for each plant */
  readonly asked?: boolean;
  readonly onChoose: (plant: Plant) => void;
  /** the heading, and what is told before a plant is chosen */
  readonly children: Child;
}

/** The ready-made plants by their pictures: the one that looks most like it is near enough to start. */
export function ChoosePlant({ asked, onChoose, children }: Props) {
  const say = useSay();
  useEffect(() => {
    if (!asked) return;
    addEventListener('keydown', pressPlant);
    return () => removeEventListener('keydown', pressPlant);
  }, []);
  return (
    <main class="page">
      {children}
      {asked ? (
        <Paragraphs text={say('choose-plant-call-how')} />
      ) : (
        <p>{say('choose-plant-how')}</p>
      )}
      <details>
        <summary>{say('choose-plant-what')}</summary>
        <p class="small">{say('choose-plant-words')}</p>
      </details>
      <ul class="plants">
        {readyMade.map(({ id, plant }, i) => (
          <li key={id}>
            <button
              type="button"
              class="choice plant"
              onClick={() => onChoose({ ...plant, name: say('my-plant') })}
            >
              {asked ? <span class="number">{answerKeys[i]}</span> : null}{' '}
              <span>{say(`plant-${id}`)}</span>
              <MiniLine plant={plant} />
            </button>
          </li>
        ))}
      </ul>
    </main>
  );
}

function pressPlant(event: KeyboardEvent): void {
  const plants = document.querySelectorAll<HTMLButtonElement>('.plants .choice');
  plants[answerKeys.indexOf(loneKey(event) ?? '')]?.click();
}
