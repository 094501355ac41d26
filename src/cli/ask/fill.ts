import { InputError } from '../../../shared/common/errors.ts';
import { faultText } from '../../../shared/interview/fault-text.ts';
import type { Field, Filled, Form } from '../../../shared/interview/form.ts';
import {
  pressureText,
  pressureUnits,
  type Units,
  volumeUnits,
} from '../../../shared/ruleset/figures.ts';
import { wrap } from '../show/wrap.ts';
import { type Manner, type Outcome, plainTelling, type Telling, talk } from './talk.ts';

/** A form filled in, or what was said instead; `value` is what the fields filled until then make. */
export type FormOutcome = ({ readonly kind: 'filled' } | Exclude<Outcome, { kind: 'filled' }>) & {
  readonly value: unknown;
};

/**
 * Puts the fields of a question one after the other; going back steps through the fields first. What cannot be is told
 * and asked again as soon as it is seen: at once, where all the fields that follow may be left out.
 * @param check throws an InputError for a value that cannot be
 */
export async function fill(
  form: Form,
  text: string,
  telling: Telling,
  manner: Manner,
  check: (value: unknown) => void,
): Promise<FormOutcome> {
  const { person, say } = manner;
  const { fields } = form;
  const filled: Record<string, Filled> = {};
  // the first of the fields that were filled and not checked yet
  let unchecked = 0;
  const [first] = fields;
  if (first && first.text !== null) person.say(wrap(text));
  for (let i = 0; i < fields.length; i += 1) {
    const field = fields[i] as Field;
    if (field.onlyAfter?.every((key) => (filled[key] ?? null) === null)) continue;
    const gauges = gaugesFrom(fields.slice(i));
    const outcome =
      (await askUnit(field, manner)) ??
      (await talk(field, field.text ?? text, telling, manner, gauges));
    if (outcome.kind === 'unknown' && field.mayBeLeftOut) filled[field.key] = null;
    else if (outcome.kind === 'back' && i > 0) {
      i -= 2;
      unchecked = Math.min(unchecked, i + 1);
    } else if (outcome.kind !== 'filled') return { ...outcome, value: form.valueOf(filled) };
    else {
      filled[field.key] = outcome.value;
      for (const bar of outcome.following ?? []) {
        i += 1;
        const next = fields[i] as Field;
        filled[next.key] = bar;
        // shown, so that a figure put to the wrong gauge is seen
        person.say(`  ${next.text} ${pressureText(bar, manner.units)}`);
      }
      if (fields.slice(i + 1).some(({ mayBeLeftOut }) => !mayBeLeftOut)) continue;
      const refusal = refusalOf(() => check(form.valueOf(filled)), manner);
      if (refusal === null) unchecked = i + 1;
      else {
        person.say(wrap(say('ask-refused', { message: refusal }), '  '));
        for (const { key } of fields.slice(unchecked)) delete filled[key];
        i = unchecked - 1;
      }
    }
  }
  return { kind: 'filled', value: form.valueOf(filled) };
}

/** Why a value cannot be, in one sentence; null when it can. */
function refusalOf(check: () => void, { say, units }: Manner): string | null {
  try {
    check();
    return null;
  } catch (error) {
    if (error instanceof InputError) return faultText(error, say, units);
    throw error;
  }
}

/** How many gauges are asked for one after the other, from the first of these fields on. */
function gaugesFrom(fields: readonly Field[]): number {
  const end = fields.findIndex((field) => field.kind !== 'figure' || field.quantity !== 'pressure');
  return end === -1 ? fields.length : end;
}

/** Before the first pressure or volume: in which unit? Remembered for the rest of the session. */
async function askUnit(field: Field, manner: Manner): Promise<Outcome | null> {
  const quantity = field.kind === 'figure' ? field.quantity : null;
  if (quantity !== 'pressure' && quantity !== 'volume') return null;
  if (manner.unitsKnown.has(quantity)) return null;
  const names: readonly string[] = quantity === 'pressure' ? pressureUnits : volumeUnits;
  const options = names.map((name) => ({ id: name, label: name, alsoSaid: saidFor(name) }));
  const text = manner.say(quantity === 'pressure' ? 'ask-unit' : 'ask-unit-volume');
  const outcome = await talk(
    { kind: 'one', key: 'unit', text, options },
    text,
    plainTelling,
    manner,
  );
  if (outcome.kind === 'filled') {
    manner.units = { ...manner.units, [quantity]: outcome.value } as Units;
  } else if (outcome.kind !== 'unknown') return outcome;
  manner.unitsKnown.add(quantity);
  return null;
}

/** Units as people write them in the languages of the words. */
function saidFor(unit: string): readonly string[] {
  const spellings: Readonly<Record<string, readonly string[]>> = {
    psi: ['pounds', 'lb', 'libras'],
    kPa: ['kilopascal'],
    L: ['litres', 'liters', 'litre', 'litros', 'litro'],
    'US gal': ['us gallons', 'gallons', 'gal', 'us gpm', 'gpm', 'galones'],
    'imp gal': ['imperial gallons', 'uk gallons', 'imperial gpm'],
  };
  return spellings[unit] ?? [];
}
