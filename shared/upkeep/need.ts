import { type Line, solveLine } from '../hydraulics/line.ts';
import type { Assumed } from '../plant/defaults.ts';
import { houseDefaults, pumpDefaults, type Spread } from '../plant/defaults-table.ts';

/** What the house must have, and how much more resistance the line bears before it does not get it. */
export interface NeedLimit {
  /** linear resistance of all filters together at 20 °C at which the need just fails, Pa/(m³/s); Infinity: never */
  readonly resistance: number;
  /** the need fails with clean filters already: no change of cartridge helps */
  readonly failsClean: boolean;
  /** flow at the taps of the need with clean filters, m³/s */
  readonly cleanFlowM3s: number;
}

const NEVER = 1e6;
const BISECTIONS = 60;

/**
 * The limit that counts: not a fixed drop but the resistance at which the solved line no longer gives the need's flow at
 * the need's taps. Filters stand one after another, so only their sum matters; it is put on one of them.
 *
 * @param line the clean line
 * @returns null for a plant without a filter behind its source
 */
export function needLimit(line: Line): NeedLimit | null {
  const index = line.elements.findIndex((element) => element.kind === 'filter');
  const filter = line.elements[index];
  if (!filter) return null;
  const clean = line.elements
    .filter((element) => element.kind === 'filter')
    .reduce((sum, element) => sum + element.linear * element.linearFactor, 0);
  const { need } = line.house;
  const flowWith = (times: number) => {
    const elements = line.elements.with(index, {
      ...filter,
      linear: filter.linear * filter.linearFactor + times * clean,
      linearFactor: 1,
    });
    return solveLine({ ...line, elements }, { open: need.open }).flowM3s;
  };
  const cleanFlowM3s = flowWith(0);
  if (cleanFlowM3s < need.flowM3s) return { resistance: clean, failsClean: true, cleanFlowM3s };
  if (flowWith(NEVER) >= need.flowM3s) {
    return { resistance: Number.POSITIVE_INFINITY, failsClean: false, cleanFlowM3s };
  }
  let [low, high] = [0, NEVER];
  for (let step = 0; step < BISECTIONS && high - low > 1e-6 * (1 + low); step++) {
    // Between powers at first: resistances span decades.
    const middle = high > 4 * (low + 1) ? Math.sqrt((low + 1) * (high + 1)) - 1 : (low + high) / 2;
    if (flowWith(middle) >= need.flowM3s) low = middle;
    else high = middle;
  }
  return { resistance: clean * (1 + high), failsClean: false, cleanFlowM3s };
}

/** What a spread leaves the value within, as factors on the middle. */
function factorsOf(spread: Spread): readonly [number, number] | null {
  if (spread.kind === 'factor') return [1 / spread.by, spread.by];
  if (spread.kind === 'share') return [1 - spread.by, 1 + spread.by];
  return null;
}

/** The spreads hold the value about 95 times in 100: two standard deviations to either side. */
const SPREAD_SDS = 2;

/**
 * How unsure the limit is where the plant file leaves out what it rests on (pump curve, taps, house pipe): standard
 * deviation of its log, each left-out value moved over its spread by itself.
 */
export function limitLogSd(line: Line, assumed: readonly Assumed[], limit: NeedLimit): number {
  const isLeftOut = (part: string | undefined, field: string) =>
    assumed.some((one) => one.part === part && one.field.startsWith(field));
  const moves: { spread: Spread; moved: (factor: number) => Line }[] = [];
  const { pump, house } = line;
  if (pump && isLeftOut(pump.id, 'curve')) {
    const headFactor = (factor: number) => ({ ...line, pump: { ...pump, headFactor: factor } });
    const flowFactor = (factor: number) => ({ ...line, pump: { ...pump, flowFactor: factor } });
    moves.push({ spread: pumpDefaults.curveHead, moved: headFactor });
    moves.push({ spread: pumpDefaults.curveFlow, moved: flowFactor });
  }
  if (isLeftOut(house.id, 'tap.flowLpm')) {
    const moved = (kFactor: number) => ({
      ...line,
      house: { ...house, tap: { ...house.tap, kFactor } },
    });
    moves.push({ spread: houseDefaults.tap.flowLpm.spread, moved });
  }
  if (isLeftOut(house.id, 'pipe')) {
    const moved = (lossFactor: number) => ({ ...line, house: { ...house, lossFactor } });
    // A bore counts with its fifth power.
    moves.push({ spread: { kind: 'factor', by: 1.3 ** 5 }, moved });
  }
  return Math.hypot(
    ...moves.map(({ spread, moved }) => {
      const factors = factorsOf(spread);
      if (!factors) return 0;
      const [low, high] = factors.map((factor) => needLimit(moved(factor))?.resistance ?? 0);
      const bounded = (value: number | undefined) => Math.min(value ?? 0, 100 * limit.resistance);
      return Math.abs(Math.log(bounded(high) / bounded(low))) / (2 * SPREAD_SDS);
    }),
  );
}
