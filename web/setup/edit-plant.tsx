import { type Child, useState } from 'hono/jsx/dom';
import type { Plant } from '../../shared/plant/schema.ts';
import { inReaderUnits } from '../../shared/ruleset/figures.ts';
import { brain } from '../brain/client.ts';
import type { Wrong } from '../brain/protocol.ts';
import { useSettings } from '../common/settings.ts';
import { useEffect } from '../common/use-effect.ts';
import { useSay } from '../common/words.ts';
import { LineEditor } from './line-editor.tsx';
import { MiniLine } from './mini-line.tsx';
import { placeInWords } from './place-in-words.ts';

interface Props {
  readonly plant: Plant;
  readonly done: string;
  readonly onDone: (plant: Plant) => void;
  /** other ways on */
  readonly children?: Child;
}

/** The field that is told to be wrong, or else the sentence that says what is. */
function showWrong(): void {
  const told =
    document.querySelector('.setup .field .wrong') ?? document.querySelector('.setup .wrong');
  const row = told?.closest('details');
  if (row) row.open = true;
  told?.scrollIntoView({ block: 'center' });
}

/** Names the plant, corrects its line, and goes on only with one that can be. */
export function EditPlant({ plant: given, done, onDone, children }: Props) {
  const say = useSay();
  const { settings } = useSettings();
  const [plant, setPlant] = useState(given);
  const [wrong, setWrong] = useState<Wrong | null>(null);
  useEffect(() => {
    void brain
      .checkPlant(plant, settings)
      .then((checked) => setWrong('wrong' in checked ? checked.wrong : null));
  }, [plant, settings]);
  return (
    <main class="page setup">
      {children}
      <h1>{say('edit-plant')}</h1>
      <p>{say('edit-plant-how')}</p>
      <div class="field">
        <label for="plant-name">{say('plant-name')}</label>
        <input
          id="plant-name"
          type="text"
          autocomplete="off"
          value={plant.name}
          onFocus={(event: FocusEvent) => (event.target as HTMLInputElement).select()}
          onInput={(event: Event) =>
            setPlant({ ...plant, name: (event.target as HTMLInputElement).value })
          }
        />
      </div>
      <MiniLine plant={plant} />
      <details class="labels">
        <summary>{say('labels')}</summary>
        <p>{inReaderUnits(say('label-pump'), settings)}</p>
        <p>{say('label-cartridge')}</p>
        <p>{say('label-vessel')}</p>
        <p>{say('label-gauge')}</p>
        <p>{say('label-lamp')}</p>
      </details>
      <LineEditor plant={plant} onPlant={setPlant} />
      {wrong ? (
        <p class="wrong" role="alert">
          {say('plant-wrong', {
            where: placeInWords(wrong.where, plant, say),
            message: wrong.message,
          })}
        </p>
      ) : null}
      <div class="bottom">
        <button type="button" class="main" onClick={() => (wrong ? showWrong() : onDone(plant))}>
          {done}
        </button>
      </div>
    </main>
  );
}
