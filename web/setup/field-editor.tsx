import { useState } from 'hono/jsx/dom';
import { toBar } from '../../shared/hydraulics/units.ts';
import { readFigure } from '../../shared/interview/units.ts';
import { houseDefaults } from '../../shared/plant/defaults-table.ts';
import type { Part } from '../../shared/plant/schema.ts';
import { numberText, toLitres } from '../../shared/ruleset/figures.ts';
import { type Settings, useSettings } from '../common/settings.ts';
import { useFormat } from '../common/use-format.ts';
import { useSay } from '../common/words.ts';
import { labelKey, type PartField, valueAt } from './part-fields.ts';

interface Props {
  readonly part: Part;
  readonly field: PartField;
  /** undefined: not known */
  readonly onValue: (value: unknown) => void;
}

/** One value of a part: typed in the reader's units, chosen, or left unknown. */
export function FieldEditor({ part, field, onValue }: Props) {
  const say = useSay();
  const format = useFormat();
  const { settings } = useSettings();
  const value = valueAt(part, field.path);
  const id = `${part.id}-${field.path}`.replaceAll('.', '-');
  const label = say(labelKey(field), {
    pressure: format.setting(tapPressure(part)),
  });
  if (field.kind === 'yes-no' || field.kind === 'choice') {
    const options = field.kind === 'yes-no' ? ['true', 'false'] : (field.options ?? []);
    const spoken = (option: string): string =>
      field.kind === 'yes-no' ? say(option === 'true' ? 'yes' : 'no') : say(`option-${option}`);
    return (
      <div class="field">
        <label for={id}>{label}</label>
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
      <label for={id}>{label}</label>
      <div class="entry">
        <Typed
          id={id}
          isDay={field.kind === 'day'}
          text={shown(value, unit.per, settings.language)}
          onText={(text) => {
            if (text.trim() === '') return onValue(undefined);
            if (field.kind === 'day') return onValue(text);
            const figure = figureIn(text, field, unit.per, settings);
            // what is no figure is kept as typed, so that the plant is told to be wrong
            onValue(figure === null ? text : Number(figure.toPrecision(6)));
          }}
        />
        {unit.words === null ? null : <span class="unit">{say(unit.words)}</span>}
      </div>
      {typeof value === 'string' && field.kind !== 'day' ? (
        <p class="wrong">{say('figure-wrong')}</p>
      ) : null}
    </div>
  );
}

/** In the plant file's unit; null for what is no figure, or could be two ("1,200"). */
function figureIn(
  text: string,
  { kind }: PartField,
  per: number,
  settings: Settings,
): number | null {
  if (kind === 'pressure' || kind === 'volume')
    return readFigure(text, kind, settings)?.value ?? null;
  const figure = readFigure(text, 'number', settings);
  return figure && figure.value * per;
}

/** The pressure at which the flow of a tap is told. */
const tapPressure = (part: Part): number =>
  (part.kind === 'house' ? part.tap?.atBar : undefined) ?? houseDefaults.tap.atBar.value;

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

/** Four figures of a value in the unit it is shown in. */
function shown(value: unknown, per: number, language: string): string {
  if (typeof value !== 'number') return typeof value === 'string' ? value : '';
  return numberText(Number((value / per).toPrecision(4)), 6, language, true);
}

/** What stands behind the figure, and how much of the plant file's unit one of it is. */
function unitOf(
  field: PartField,
  settings: Settings,
): { readonly per: number; readonly words: string | null } {
  const { pressure, volume } = settings;
  switch (field.kind) {
    case 'pressure':
      return { per: toBar[pressure](1), words: `unit-${pressure.toLowerCase()}` };
    case 'volume':
      return {
        per: toLitres(1, volume),
        words: `unit-${volume.replace(' ', '-').toLowerCase()}`,
      };
    case 'flow':
      return {
        per: toLitres(1, volume),
        words: { L: 'unit-lpm', 'US gal': 'unit-us-gpm', 'imp gal': 'unit-imp-gpm' }[volume],
      };
    default:
      return { per: 1, words: field.unit ? `unit-${field.unit}` : null };
  }
}
