import { BAR_PER_M } from '../common/water-column.ts';
import { sourceHeightM } from '../hydraulics/line/source.ts';
import type { Line } from '../hydraulics/line/types.ts';
import { paToBar } from '../hydraulics/units.ts';
import type { Assumed, ResolvedPlant } from '../plant/defaults.ts';
import type { Effect } from './effects.ts';

/** What stands behind it is held at its set pressure, or is what arrives where that is less. */
export interface Reducer {
  /** index in the plant's line */
  readonly at: number;
  /** bar at the curves' datum, and how well it is known, standard deviation */
  readonly setBar: number;
  readonly sd: number;
}

/** One set by its dial holds within so much over the flows of a house (common practice). */
const HOLDS_SD_BAR = 0.15;
/** One whose set pressure nobody told may be 0.3 bar off (contract). */
const ASSUMED_SD_BAR = 0.3 / Math.sqrt(3);

/** The reducers of a plant in order along its line. */
export function reducersOf(
  line: Line,
  plant: ResolvedPlant,
  assumed: readonly Assumed[],
): Reducer[] {
  return plant.line.flatMap((part, at) => {
    const element = line.elements.find(({ id }) => id === part.id);
    if (!element || element.setPa === null) return [];
    const lift = (element.heightM - sourceHeightM(line)) * BAR_PER_M;
    const isAssumed = assumed.some((one) => one.part === part.id && one.field === 'setBar');
    return [
      {
        at,
        setBar: paToBar(element.setPa) + lift,
        sd: Math.hypot(HOLDS_SD_BAR, isAssumed ? ASSUMED_SD_BAR : 0),
      },
    ];
  });
}

/** What a reducer holds under the faults of a scenario, and how well that is known. */
export function heldBy(
  { at, setBar, sd }: Reducer,
  effects: readonly Effect[],
): { readonly bar: number; readonly sd: number } {
  let bar = setBar;
  let variance = sd * sd;
  for (const { at: where, change, spread } of effects) {
    if (where !== at || change.reducerBar === undefined) continue;
    bar += change.reducerBar;
    variance += (spread * change.reducerBar) ** 2;
  }
  return { bar, sd: Math.sqrt(variance) };
}

/** Whether its seat lets water by while nothing is drawn, so that what stands before it comes through. */
export const passesAtRest = ({ at }: Reducer, effects: readonly Effect[]): boolean =>
  effects.some((effect) => effect.at === at && effect.change.reducerPasses);
