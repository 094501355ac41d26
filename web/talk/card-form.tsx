import { useState } from 'hono/jsx/dom';
import type { Filled } from '../../shared/interview/form.ts';
import type { Option } from '../../shared/interview/match.ts';
import type { Card } from '../brain/protocol.ts';
import { useSettings } from '../common/settings.ts';
import { useEffect } from '../common/use-effect.ts';
import { useSay } from '../common/words.ts';
import { Choices } from './choices.tsx';
import { FieldInput, filledOf, type Raw, toggled } from './field-input.tsx';
import { rawOf } from './raw-of.ts';

export type FilledForm = Readonly<Record<string, Filled>>;

/** A pause in typing after which what was filled in is judged ahead. */
const PAUSE_MS = 250;

interface Props {
  readonly card: Card;
  readonly numbered: boolean;
  /** several ways to finish a form, each a button of its own; left out: one, that keeps what was typed */
  readonly finishes?: readonly Pick<Option, 'id' | 'label'>[];
  readonly onFilled: (filled: FilledForm, finish: string) => void;
  /** told while a form is being filled in, once it could be finished */
  readonly onFilling?: (filled: FilledForm) => void;
}

/** The answers of one question. One choice is taken at a touch; anything longer has a button to finish it. */
export function CardForm({ card, numbered, finishes, onFilled, onFilling }: Props) {
  const say = useSay();
  const { settings } = useSettings();
  const [raws, setRaws] = useState<Readonly<Record<string, Raw>>>(() => rawOf(card, settings));
  const [wrong, setWrong] = useState<readonly string[]>([]);
  const [touched, setTouched] = useState<string | null>(null);
  const only = card.fields.length === 1 ? card.fields[0] : undefined;
  const set = (key: string, raw: Raw): void => setRaws((before) => ({ ...before, [key]: raw }));

  useEffect(() => {
    if (!onFilling || only?.kind === 'one') return;
    const filled = card.fields.map((field) => [
      field.key,
      filledOf(field, raws[field.key], settings),
    ]);
    if (filled.some(([, value]) => value === undefined)) return;
    const timer = setTimeout(() => onFilling(Object.fromEntries(filled)), PAUSE_MS);
    return () => clearTimeout(timer);
  }, [raws]);

  if (only?.kind === 'one') {
    const chosen = touched ?? (typeof raws[only.key] === 'string' ? String(raws[only.key]) : '');
    return (
      <>
        <Choices
          options={only.options}
          chosen={[chosen]}
          many={false}
          numbered={numbered}
          onChoose={(id) => {
            setTouched(id);
            onFilled({ [only.key]: id }, '');
          }}
        />
        {only.orFigure ? <OrFigure field={only} onFilled={onFilled} /> : null}
      </>
    );
  }
  if (only?.kind === 'many') {
    const raw = raws[only.key];
    const chosen = Array.isArray(raw) ? raw : [];
    return (
      <>
        <Choices
          options={only.options}
          chosen={chosen}
          many
          numbered={numbered}
          onChoose={(id) => set(only.key, toggled(chosen, id))}
        />
        <button type="button" class="main" onClick={() => onFilled({ [only.key]: chosen }, '')}>
          {numbered ? <span class="number">0</span> : null}
          {chosen.length === 0 ? say('none') : say('that-is-all', { n: chosen.length })}
        </button>
      </>
    );
  }
  const finish = (event: Event): void => {
    event.preventDefault();
    const by = (event as SubmitEvent).submitter?.getAttribute('value') ?? '';
    const filled = card.fields.map(
      (field) => [field, filledOf(field, raws[field.key], settings)] as const,
    );
    const bad = filled.filter(
      ([field, value]) => value === undefined || (value === null && !field.mayBeLeftOut),
    );
    setWrong(bad.map(([field]) => field.key));
    const first = bad[0]?.[0];
    if (first) document.getElementById(inputId(card, first.key))?.focus();
    else
      onFilled(
        Object.fromEntries(filled.map(([field, value]) => [field.key, value])) as FilledForm,
        by,
      );
  };
  return (
    <form class="form" onSubmit={finish}>
      {card.fields.map((field) => (
        <FieldInput
          key={field.key}
          field={field}
          id={inputId(card, field.key)}
          label={field.text ?? card.short}
          raw={raws[field.key]}
          wrong={wrong.includes(field.key)}
          onRaw={(raw) => set(field.key, raw)}
        />
      ))}
      {(finishes ?? [{ id: '', label: say('keep-answer') }]).map(({ id, label }) => (
        <button key={id} type="submit" class="main" value={id}>
          {label}
        </button>
      ))}
    </form>
  );
}

const inputId = (card: Card, key: string): string =>
  `${card.key} ${key}`.replaceAll(/[^a-zA-Z0-9]+/g, '-');

/** A choice that may also be a figure (the tank's level in metres). */
function OrFigure({
  field,
  onFilled,
}: {
  readonly field: Extract<Card['fields'][number], { kind: 'one' }>;
  readonly onFilled: Props['onFilled'];
}) {
  const say = useSay();
  const { settings } = useSettings();
  const [raw, setRaw] = useState<Raw>('');
  const [wrong, setWrong] = useState(false);
  const figure = {
    kind: 'figure',
    key: field.key,
    text: null,
    quantity: field.orFigure ?? 'number',
    orWords: [],
  } as const;
  const finish = (event: Event): void => {
    event.preventDefault();
    const value = filledOf(figure, raw, settings);
    setWrong(typeof value !== 'number');
    if (typeof value === 'number') onFilled({ [field.key]: value }, '');
  };
  return (
    <form class="or-figure" onSubmit={finish}>
      <FieldInput
        field={figure}
        id="or-figure"
        label={say('or-measured')}
        raw={raw}
        wrong={wrong}
        onRaw={setRaw}
      />
      <button type="submit">{say('keep-answer')}</button>
    </form>
  );
}
