import { useRef, useState } from 'hono/jsx/dom';
import type { Part, Plant } from '../../shared/plant/schema.ts';
import { useEffect } from '../common/use-effect.ts';
import { useSay } from '../common/words.ts';
import { type Addable, addable, moved, newPart } from './new-part.ts';
import { PartRow } from './part-row.tsx';

interface Props {
  readonly plant: Plant;
  readonly onPlant: (plant: Plant) => void;
}

/** The line part by part, tank first: moved by steps or by dragging, opened to fill in what is known. */
export function LineEditor({ plant, onPlant }: Props) {
  const say = useSay();
  const [dragged, setDragged] = useState<number | null>(null);
  const [told, setTold] = useState('');
  const pressed = useRef<HTMLElement>(null);
  // a row that moves loses the focus, and the next step would begin at the top of the page
  useEffect(() => {
    const button = pressed.current;
    pressed.current = null;
    const other = button?.parentElement?.querySelector<HTMLElement>('button:enabled');
    (button?.matches(':disabled') ? other : button)?.focus();
  }, [plant]);
  const setLine = (line: Part[]): void => onPlant({ ...plant, line });
  const move = (from: number, to: number): void => {
    setLine(moved(plant.line, from, to));
    setTold(say('part-moved', { id: plant.line[from]?.id ?? '', place: to + 1 }));
  };
  return (
    <>
      <ol class="line-editor">
        {plant.line.map((part, i) => (
          <PartRow
            key={part.id}
            part={part}
            plant={plant}
            isFirst={i === 0}
            isLast={i >= plant.line.length - 2}
            onMove={(by) => {
              pressed.current = document.activeElement as HTMLElement;
              move(i, i + by);
            }}
            onChange={(changed) => setLine(plant.line.map((one, j) => (i === j ? changed : one)))}
            onRemove={() => setLine(plant.line.filter((_, j) => i !== j))}
            onDragStart={() => setDragged(i)}
            onDrop={() => dragged !== null && move(dragged, i)}
          />
        ))}
      </ol>
      <p class="visually-hidden" role="status">
        {told}
      </p>
      <AddPart onAdd={(what) => setLine(withNew(plant, what))} />
    </>
  );
}

/** A new part stands before the house, from where it is moved to its place. */
function withNew(plant: Plant, what: Addable): Part[] {
  const house = plant.line.at(-1);
  const before = plant.line.slice(0, -1);
  return house ? [...before, newPart(what, plant), house] : [...before, newPart(what, plant)];
}

function AddPart({ onAdd }: { readonly onAdd: (what: Addable) => void }) {
  const say = useSay();
  const [what, setWhat] = useState<Addable>('gauge');
  return (
    <div class="add-part">
      <label for="add-part">{say('add-part')}</label>
      <div class="entry">
        <select
          id="add-part"
          value={what}
          onChange={(event: Event) => setWhat((event.target as HTMLSelectElement).value as Addable)}
        >
          {addable.map((kind) => (
            <option value={kind} selected={kind === what}>
              {say(`kind-${kind.replace('filter-', '')}`)}
            </option>
          ))}
        </select>
        <button type="button" onClick={() => onAdd(what)}>
          {say('add')}
        </button>
      </div>
    </div>
  );
}
