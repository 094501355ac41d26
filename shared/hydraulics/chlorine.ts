import { InputError } from '../common/errors.ts';

/** Above this nothing is dosed: strong solutions harm people, rubber and metal (COMAR 26.04.04.24 has 500 as its ceiling). */
const MOST_MG_L = 500;

/** How long a dose must stand; more than `toMgL` belongs to the next row. 5 mg/L: one hour is the longer of two published. */
const standing = [
  { toMgL: 5, minutes: 60 },
  { toMgL: 50, minutes: 480 },
  { toMgL: Number.POSITIVE_INFINITY, minutes: 720 },
];
/** Above this the water is flushed away before anybody drinks. */
const DRINKABLE_MG_L = 5;

/** What chlorine spoils or what takes it away: by-passed or taken out before dosing a line. */
export const bypassedForChlorine = ['carbon', 'membrane', 'softener'] as const;

export interface ChlorineDose {
  /** of the product */
  readonly millilitres: number;
  readonly waitMinutes: number;
  readonly thenFlush: boolean;
}

/**
 * Liquid product for a volume of water: mL = L·(mg/L)/(10·%), % being grams of available chlorine in 100 mL.
 *
 * @throws InputError where a value is not above zero, the strength is past 100 % or the dose past 500 mg/L
 */
export function chlorineDose(litres: number, percent: number, mgPerLitre: number): ChlorineDose {
  checkDose(litres, percent, mgPerLitre);
  const row = standing.find(({ toMgL }) => mgPerLitre <= toMgL);
  return {
    millilitres: (litres * mgPerLitre) / (10 * percent),
    waitMinutes: row?.minutes ?? 0,
    thenFlush: mgPerLitre > DRINKABLE_MG_L,
  };
}

/** Grams of a powder with `percent` available chlorine by weight for a volume of water: g = L·(mg/L)/(10·%). */
export function powderGrams(litres: number, percent: number, mgPerLitre: number): number {
  return chlorineDose(litres, percent, mgPerLitre).millilitres;
}

/** What a dose comes to in the water, mg/L: mL·%·10/L. */
export function chlorineMgPerLitre(millilitres: number, percent: number, litres: number): number {
  return (millilitres * percent * 10) / litres;
}

function checkDose(litres: number, percent: number, mgPerLitre: number): void {
  const above: [string, number][] = [
    ['litres', litres],
    ['percent', percent],
    ['mg-per-litre', mgPerLitre],
  ];
  for (const [name, value] of above) {
    if (!(value > 0) || !Number.isFinite(value)) {
      throw new InputError(name, 'must be a number above zero');
    }
  }
  if (percent > 100) {
    throw new InputError('percent', 'must be at most 100: grams of available chlorine in 100 mL');
  }
  if (mgPerLitre > MOST_MG_L) {
    throw new InputError(
      'mg-per-litre',
      `more than ${MOST_MG_L} mg/L is not dosed: it harms people, rubber and metal; use less and let it stand longer`,
    );
  }
}
