import type { Field, Filled } from '../../shared/interview/form.ts';
import { readFigure } from '../../shared/interview/units.ts';
import {
  type PressureUnit,
  pressureUnits,
  type VolumeUnit,
  volumeUnits,
} from '../../shared/ruleset/figures.ts';
import { useSettings } from '../common/settings.ts';
import { useSay } from '../common/words.ts';
import { Choices } from './choices.tsx';

/** What a person has put into one field: text as typed, or options touched. */
export type Raw = string | readonly string[] | undefined;

interface Props {
  readonly field: Field;
  readonly id: string;
  readonly label: string;
  readonly raw: Raw;
  readonly wrong: boolean;
  readonly onRaw: (raw: Raw) => void;
}

/** One field of a form: choices, a figure with its unit, or a day. */
export function FieldInput({ field, id, label, raw, wrong, onRaw }: Props) {
  const say = useSay();
  if (field.kind === 'one' || field.kind === 'many') {
    const chosen = typeof raw === 'string' ? [raw] : (raw ?? []);
    return (
      <fieldset class="field">
        <legend>{label}</legend>
        <Choices
          options={field.options}
          chosen={chosen}
          many={field.kind === 'many'}
          onChoose={(option) => onRaw(field.kind === 'one' ? option : toggled(chosen, option))}
        />
        {wrong ? <p class="wrong">{say('choose-wrong')}</p> : null}
      </fieldset>
    );
  }
  const text = typeof raw === 'string' ? raw : '';
  const typed = (event: Event): void => onRaw((event.target as HTMLInputElement).value);
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <div class="entry">
        <input
          id={id}
          type={field.kind === 'day' ? 'date' : 'text'}
          inputmode={field.kind === 'day' ? undefined : 'decimal'}
          autocomplete="off"
          value={text}
          aria-invalid={wrong ? 'true' : undefined}
          aria-describedby={wrong ? `${id}-wrong` : undefined}
          onInput={typed}
        />
        {field.kind === 'figure' ? <Unit quantity={field.quantity} of={label} /> : null}
      </div>
      {field.kind === 'figure' && field.orWords.length > 0 ? (
        <Choices options={field.orWords} chosen={[text]} many={false} onChoose={onRaw} />
      ) : null}
      {wrong ? (
        <p id={`${id}-wrong`} class="wrong">
          {say('figure-wrong')} {field.mayBeLeftOut ? say('leave-empty') : null}
        </p>
      ) : null}
    </div>
  );
}

/** The unit behind a figure, whose label is `of`: pressure and volume are the reader's choice, and it is remembered. */
export function Unit({ quantity, of }: { readonly quantity: string; readonly of: string }) {
  const say = useSay();
  const { settings, change } = useSettings();
  const chosen = (event: Event): string => (event.target as HTMLSelectElement).value;
  if (quantity === 'pressure') {
    return (
      <select
        aria-label={say('unit-of', { figure: of })}
        value={settings.pressure}
        onChange={(event: Event) => change({ pressure: chosen(event) as PressureUnit })}
      >
        {pressureUnits.map((unit) => (
          <option value={unit} selected={unit === settings.pressure}>
            {say(`unit-${unit.toLowerCase()}`)}
          </option>
        ))}
      </select>
    );
  }
  if (quantity === 'volume') {
    return (
      <select
        aria-label={say('unit-of', { figure: of })}
        value={settings.volume}
        onChange={(event: Event) => change({ volume: chosen(event) as VolumeUnit })}
      >
        {volumeUnits.map((unit) => (
          <option value={unit} selected={unit === settings.volume}>
            {say(`unit-${unit.replace(' ', '-').toLowerCase()}`)}
          </option>
        ))}
      </select>
    );
  }
  return quantity === 'number' ? null : <span class="unit">{say(`unit-${quantity}`)}</span>;
}

export function toggled(chosen: readonly string[], option: string): readonly string[] {
  return chosen.includes(option) ? chosen.filter((one) => one !== option) : [...chosen, option];
}

/** What was put in, as the interview takes it; undefined when a figure cannot be read. */
export function filledOf(
  field: Field,
  raw: Raw,
  units: { readonly pressure: PressureUnit; readonly volume: VolumeUnit },
): Filled | undefined {
  if (field.kind === 'many') return Array.isArray(raw) ? raw : [];
  if (typeof raw !== 'string' || raw.trim() === '') return null;
  if (field.kind !== 'figure') return raw;
  if (field.orWords.some((option) => option.id === raw)) return raw;
  return readFigure(raw, field.quantity, units)?.value;
}
