import type { Child } from 'hono/jsx/dom';
import { readyMade } from '../../shared/plant/ready-made.ts';
import type { Plant } from '../../shared/plant/schema.ts';
import { useSay } from '../common/words.ts';
import { MiniLine } from './mini-line.tsx';

interface Props {
  readonly onChoose: (plant: Plant) => void;
  /** what is told before a plant is chosen */
  readonly children?: Child;
}

/** The ready-made plants by their pictures: the one that looks most like it is near enough to start. */
export function ChoosePlant({ onChoose, children }: Props) {
  const say = useSay();
  return (
    <main class="page">
      {children}
      <h1>{say('choose-plant')}</h1>
      <p>{say('choose-plant-how')}</p>
      <details>
        <summary>{say('choose-plant-what')}</summary>
        <p class="small">{say('choose-plant-words')}</p>
      </details>
      <ul class="plants">
        {readyMade.map(({ id, plant }) => (
          <li key={id}>
            <button
              type="button"
              class="choice plant"
              onClick={() => onChoose({ ...plant, name: say('my-plant') })}
            >
              <span>{say(`plant-${id}`)}</span>
              <MiniLine plant={plant} />
            </button>
          </li>
        ))}
      </ul>
    </main>
  );
}
