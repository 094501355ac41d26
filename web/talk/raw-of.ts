import { inPressureUnit, inVolumeUnit, numberText } from '../../shared/ruleset/figures.ts';
import type { Card } from '../brain/protocol.ts';
import type { Settings } from '../common/settings.ts';
import type { Raw } from './field-input.tsx';

/** The answer given before, as it would be typed now, so that changing one figure does not mean typing them all. */
export function rawOf(card: Card, settings: Settings): Readonly<Record<string, Raw>> {
  const { given, fields } = card;
  const raws = fields.map((field) => {
    const value = valueIn(given, field.key);
    if (Array.isArray(value)) return [field.key, value as readonly string[]] as const;
    if (typeof value === 'string' && value !== 'unknown') return [field.key, value] as const;
    if (typeof value !== 'number') return [field.key, undefined] as const;
    const quantity = field.kind === 'figure' ? field.quantity : '';
    return [field.key, inUnit(value, quantity, settings)] as const;
  });
  return Object.fromEntries(raws);
}

/** "bar G1" is the entry G1 of `bar`; "value" is the whole answer. */
function valueIn(given: unknown, key: string): unknown {
  if (typeof given !== 'object' || given === null || Array.isArray(given)) {
    return key === 'value' ? given : undefined;
  }
  return key
    .split(' ')
    .reduce<unknown>((here, step) => (here as Record<string, unknown> | undefined)?.[step], given);
}

/** As fine as one would type it; what is kept in the reader's own unit stays as it is. */
function inUnit(value: number, quantity: string, { pressure, volume, language }: Settings): string {
  if (quantity === 'pressure') {
    const digits = { bar: 4, psi: 1, kPa: 0 }[pressure];
    return numberText(inPressureUnit(value, pressure), digits, language, true);
  }
  if (quantity === 'volume') {
    return numberText(inVolumeUnit(value, volume), volume === 'L' ? 4 : 2, language, true);
  }
  return numberText(value, 4, language, true);
}
