import { useState } from 'hono/jsx/dom';
import { L_PER_IMPERIAL_GALLON, L_PER_US_GALLON, psiToBar } from '../../shared/hydraulics/units.ts';
import type { Part } from '../../shared/plant/schema.ts';
import { type Settings, useSettings } from '../common/settings.ts';
import { useSay } from '../common/words.ts';
import { type PartField, valueAt } from './part-fields.ts';

interface Props {
  readonly part: Part;
  readonly field: PartField;
  /** undefined: not known */
  readonly onValue: (value: unknown) => void;
}

/** One value of a part: typed in the reader's units, chosen, or left unknown. */
export function FieldEditor({ part, field, onValue }: Props) {
  const say = useSay();
  const { settings } = useSettings();
  const value = valueAt(part, field.path);
  const id = `${part.id}-${field.path}`.replaceAll('.', '-');
  const words = `field-${field.path.replaceAll('.', '-').toLowerCase()}`;
  if (field.kind === 'yes-no' || field.kind === 'choice') {
    const options = field.kind === 'yes-no' ? ['true', 'false'] : (field.options ?? []);
    const spoken = (option: string): string =>
      field.kind === 'yes-no' ? say(option === 'true' ? 'yes' : 'no') : say(`option-${option}`);
    return (
      <div class="field">
        <label for={id}>{say(words)}</label>
        <select
          id={id}
          onChange={(event: Event) => {
            const chosen = (event.target as HTMLSelectElement).value;
            if (chosen === '') onValue(undefined);
            else onValue(field.kind === 'yes-no' ? chosen === 'true' : chosen);
          }}
        >
          {field.path === 'medium' ? null : (
            <option value="" selected={value === undefined}>
              {say('not-known-field')}
            </option>
          )}
          {options.map((option) => (
            <option value={option} selected={String(value) === option}>
              {spoken(option)}
            </option>
          ))}
        </select>
      </div>
    );
  }
  const unit = unitOf(field, settings);
  return (
    <div class="field">
      <label for={id}>{say(words)}</label>
      <div class="entry">
        <Typed
          id={id}
          isDay={field.kind === 'day'}
          text={shown(value, unit.per)}
          onText={(text) => {
            if (text.trim() === '') return onValue(undefined);
            if (field.kind === 'day') return onValue(text);
            const figure = Number(text.trim().replace(',', '.'));
            if (Number.isFinite(figure)) onValue(Number((figure * unit.per).toPrecision(6)));
          }}
        />
        {unit.words === null ? null : <span class="unit">{say(unit.words)}</span>}
      </div>
    </div>
  );
}

/** Keeps what is being typed as it is typed; the value behind it is told at every change. */
function Typed(props: {
  readonly id: string;
  readonly isDay: boolean;
  readonly text: string;
  readonly onText: (text: string) => void;
}) {
  const say = useSay();
  const [text, setText] = useState(props.text);
  return (
    <input
      id={props.id}
      type={props.isDay ? 'date' : 'text'}
      inputmode={props.isDay ? undefined : 'decimal'}
      autocomplete="off"
      placeholder={props.isDay ? undefined : say('not-known-field')}
      value={text}
      onInput={(event: Event) => {
        const typed = (event.target as HTMLInputElement).value;
        setText(typed);
        props.onText(typed);
      }}
    />
  );
}

function shown(value: unknown, per: number): string {
  if (typeof value !== 'number') return typeof value === 'string' ? value : '';
  return String(Number((value / per).toPrecision(4)));
}

/** What stands behind the figure, and how much of the plant file's unit one of it is. */
function unitOf(
  field: PartField,
  settings: Settings,
): { readonly per: number; readonly words: string | null } {
  const litres = { L: 1, 'US gal': L_PER_US_GALLON, 'imp gal': L_PER_IMPERIAL_GALLON }[
    settings.volume
  ];
  const perBar = { bar: 1, psi: psiToBar(1), kPa: 0.01 }[settings.pressure];
  switch (field.kind) {
    case 'pressure':
      return { per: perBar, words: `unit-${settings.pressure.toLowerCase()}` };
    case 'volume':
      return { per: litres, words: `unit-${settings.volume.replace(' ', '-').toLowerCase()}` };
    case 'flow':
      return {
        per: litres,
        words: { L: 'unit-lpm', 'US gal': 'unit-us-gpm', 'imp gal': 'unit-imp-gpm' }[
          settings.volume
        ],
      };
    default:
      return { per: 1, words: field.unit ? `unit-${field.unit}` : null };
  }
}
