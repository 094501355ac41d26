import { useRef, useState } from 'hono/jsx/dom';
import { readFigure } from '../../shared/interview/units.ts';
import type { Part } from '../../shared/plant/schema.ts';
import type { Format } from '../common/format.ts';
import { partName, wordsOfPart } from '../common/part-name.ts';
import { useSettings } from '../common/settings.ts';
import { useEffect } from '../common/use-effect.ts';
import { useFormat } from '../common/use-format.ts';
import { useSay } from '../common/words.ts';
import { Unit } from '../talk/field-input.tsx';
import type { Picture } from './picture.ts';

interface Props {
  readonly part: Part;
  readonly picture: Picture;
  readonly readOnly: boolean;
  readonly onReading: (taps: 'closed' | 'open', bar: number) => void;
  readonly onEdit: () => void;
  readonly onClose: () => void;
}

/** What a part is, where to look for it, its age and state; at a gauge, its reading can be typed. */
export function PartPanel({ part, picture, readOnly, onReading, onEdit, onClose }: Props) {
  const say = useSay();
  const format = useFormat();
  const panel = useRef<HTMLElement>(null);
  useEffect(() => panel.current?.focus(), [part.id]);
  const words = wordsOfPart(part);
  const at = picture.parts.findIndex(({ id }) => id === part.id);
  const open = picture.open.find((reading) => reading.at === at);
  const closed = picture.closed.find((reading) => reading.at === at);
  return (
    <section ref={panel} class="part-panel" tabindex={-1} aria-label={part.id}>
      <h3>{partName(part.id, words, say)}</h3>
      <p>{say(`about-${words}`)}</p>
      <p class="small">{say(`where-${words}`)}</p>
      <ul class="facts">
        {factsOf(part, format).map(([key, value]) => (
          <li key={key}>{say(key, { value })}</li>
        ))}
        {closed ? <li>{say('reads-closed', { value: format.reading(closed.shownBar) })}</li> : null}
        {open ? (
          <li>
            {say('reads-open', {
              value: format.reading(open.shownBar),
              taps: format.taps(picture.taps),
            })}
          </li>
        ) : null}
      </ul>
      {part.kind === 'gauge' && !readOnly ? (
        <GaugeEntry id={part.id} onReading={onReading} />
      ) : null}
      <div class="row">
        {readOnly ? null : (
          <button type="button" class="choice" onClick={onEdit}>
            {say('edit-part')}
          </button>
        )}
        <button type="button" class="choice plain" onClick={onClose}>
          {say('close')}
        </button>
      </div>
    </section>
  );
}

function GaugeEntry({
  id,
  onReading,
}: {
  readonly id: string;
  readonly onReading: Props['onReading'];
}) {
  const say = useSay();
  const { settings } = useSettings();
  const [taps, setTaps] = useState<'closed' | 'open'>('open');
  const [text, setText] = useState('');
  const [wrong, setWrong] = useState(false);
  const keep = (event: Event): void => {
    event.preventDefault();
    const figure = readFigure(text, 'pressure', settings);
    setWrong(figure === null);
    if (!figure) return;
    onReading(taps, figure.value);
    setText('');
  };
  return (
    <form class="gauge-entry" onSubmit={keep}>
      <fieldset>
        <legend>{say('reading-with')}</legend>
        {(['open', 'closed'] as const).map((state) => (
          <label key={state} class="radio">
            <input
              type="radio"
              name="taps"
              checked={taps === state}
              onChange={() => setTaps(state)}
            />
            {say(state === 'open' ? 'taps-one' : 'taps-closed')}
          </label>
        ))}
      </fieldset>
      <label for="gauge-reading">
        {say('ask-gauge', { gauge: id, unit: say(`unit-${settings.pressure.toLowerCase()}`) })}
      </label>
      <div class="entry">
        <input
          id="gauge-reading"
          type="text"
          inputmode="decimal"
          autocomplete="off"
          value={text}
          aria-invalid={wrong ? 'true' : undefined}
          onInput={(event: Event) => setText((event.target as HTMLInputElement).value)}
        />
        <Unit quantity="pressure" of={id} />
        <button type="submit">{say('keep-answer')}</button>
      </div>
      {wrong ? <p class="wrong">{say('figure-wrong')}</p> : null}
    </form>
  );
}

/** What the plant file says of the part, as keys of words and their values in the reader's units. */
function factsOf(part: Part, format: Format): [string, string][] {
  const facts: [string, string][] = [];
  const add = <T,>(key: string, value: T | undefined, said: (value: T) => string): void => {
    if (value !== undefined) facts.push([key, said(value)]);
  };
  const { day, setting, volume, plain } = format;
  if (part.kind === 'filter') {
    add('fact-micron', part.ratingMicron, plain);
    add('fact-fitted-on', part.fittedOn, day);
    add('fact-life-months', part.lifeMonths, plain);
  }
  if (part.kind === 'uv') {
    add('fact-lamp-on', part.lampFittedOn, day);
    add('fact-lamp-hours', part.lampLifeH, plain);
  }
  if (part.kind === 'tank') {
    add('fact-volume', part.volumeL, volume);
    add('fact-level', part.levelM, plain);
  }
  if (part.kind === 'vessel') {
    add('fact-volume', part.volumeL, volume);
    add('fact-precharge', part.prechargeBar, setting);
  }
  if (part.kind === 'gauge') add('fact-range', part.rangeBar, setting);
  if (part.kind === 'pump' && part.control?.kind === 'pressure-switch') {
    add('fact-cut-in', part.control.cutInBar, setting);
    add('fact-cut-out', part.control.cutOutBar, setting);
  }
  if (part.kind === 'valve' && part.open === false) facts.push(['fact-shut', '']);
  return facts;
}
