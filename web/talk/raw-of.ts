import { barToPsi, L_PER_IMPERIAL_GALLON, L_PER_US_GALLON } from '../../shared/hydraulics/units.ts';
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
    return [field.key, String(inUnit(value, quantity, settings))] as const;
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

function inUnit(value: number, quantity: string, { pressure, volume }: Settings): number {
  const rounded = (figure: number, digits: number): number => Number(figure.toFixed(digits));
  if (quantity === 'pressure') {
    return { bar: value, psi: rounded(barToPsi(value), 1), kPa: rounded(value * 100, 0) }[pressure];
  }
  if (quantity === 'volume') {
    return {
      L: value,
      'US gal': rounded(value / L_PER_US_GALLON, 2),
      'imp gal': rounded(value / L_PER_IMPERIAL_GALLON, 2),
    }[volume];
  }
  return value;
}
