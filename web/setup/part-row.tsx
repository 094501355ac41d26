import type { Part, Plant } from '../../shared/plant/schema.ts';
import { partLabel, partName, wordsOfPart } from '../common/part-name.ts';
import { useSay } from '../common/words.ts';
import { PartShape } from '../drawing/part-shape.tsx';
import { FieldEditor } from './field-editor.tsx';
import { fieldsOf, withValue } from './part-fields.ts';

interface Props {
  readonly part: Part;
  readonly plant: Plant;
  readonly isFirst: boolean;
  readonly isLast: boolean;
  readonly onMove: (by: 1 | -1) => void;
  readonly onChange: (part: Part) => void;
  readonly onRemove: () => void;
  readonly onDragStart: () => void;
  readonly onDrop: () => void;
}

export function PartRow(props: Props) {
  const say = useSay();
  const { part, onChange } = props;
  const isHouse = part.kind === 'house';
  const words = wordsOfPart(part);
  const name = partName(part.id, words, say);
  const label = partLabel(part.id, words, say);
  return (
    <li
      class="part-row"
      draggable={isHouse ? 'false' : 'true'}
      onDragStart={props.onDragStart}
      onDragOver={(event: DragEvent) => event.preventDefault()}
      onDrop={props.onDrop}
    >
      <details>
        <summary>
          <svg class="shape" viewBox="-22 -22 44 44" aria-hidden="true">
            <g class="part">
              <PartShape
                part={{
                  id: part.id,
                  kind: part.kind,
                  words,
                  probability: null,
                  cause: null,
                }}
              />
            </g>
          </svg>
          <span>{name}</span>
        </summary>
        <p class="small">{say(`about-${words}`)}</p>
        <p class="small">{say(`where-${words}`)}</p>
        <div class="fields">
          {fieldsOf(part).map((field) => (
            <FieldEditor
              key={field.path}
              part={part}
              field={field}
              onValue={(value) => onChange(withValue(part, field.path, value))}
            />
          ))}
        </div>
        {isHouse ? null : (
          <button type="button" class="choice plain" onClick={props.onRemove}>
            {say('remove-part', { id: label })}
          </button>
        )}
      </details>
      {isHouse ? null : (
        <div class="steps">
          <button
            type="button"
            disabled={props.isFirst}
            onClick={() => props.onMove(-1)}
            aria-label={say('move-before', { id: label })}
          >
            {say('before')}
          </button>
          <button
            type="button"
            disabled={props.isLast}
            onClick={() => props.onMove(1)}
            aria-label={say('move-after', { id: label })}
          >
            {say('after')}
          </button>
        </div>
      )}
    </li>
  );
}
