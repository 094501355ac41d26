import { type Taps, tapsKey } from '../case/taps.ts';
import type { FlowTest } from '../case/values.ts';
import { gaugeUncertainty, permissibleErrorBar } from '../hydraulics/gauge.ts';
import type { Line, OpenTaps } from '../hydraulics/line.ts';
import { lossBetweenPa, outletFlow } from '../hydraulics/line.ts';
import { fallingRoot } from '../hydraulics/root.ts';
import { bucketFlow } from '../hydraulics/tap.ts';
import { barToPa, GRAVITY_M_S2, lpmToM3s } from '../hydraulics/units.ts';
import { waterAt } from '../hydraulics/water.ts';
import type { ResolvedOf } from '../plant/defaults.ts';
import type { Round, Upkeep } from './history.ts';

/** Flow of one open reading. */
export interface RoundFlow {
  readonly m3s: number;
  /** standard uncertainty as a share of it, by what differs from reading to reading */
  readonly uShare: number;
  /** standard uncertainty as a share of it, by what all readings of the plant share */
  readonly keptShare: number;
}

/** A measured flow is good to ±7 % (bucket and watch at a household tap; our own estimate), evenly spread. */
export const MEASURED_U = 0.07 / Math.sqrt(3);
/** An ordinary tap's constant is known to ±20 % (contract), and keeps its error. */
const TAP_KEPT_U = 0.2 / Math.sqrt(3);
/** How much the tap law scatters from day to day besides (never opened quite alike); our own estimate. */
const TAP_SCATTER_U = 0.04;
/** Readings that the estimate above is worth when the scatter is learnt from the record. */
const SCATTER_WORTH = 4;
const LEAST_SCATTER_U = 0.015;
/** Less than a drip tells nothing of a resistance, L/min. */
const LEAST_LPM = 0.1;

/**
 * Flow of every open round: measured where it was, and by the tap law from the last gauge's pressure. Where rounds carry
 * both, what the taps and that gauge keep wrong is learnt, and the tap law's scatter, so that both together are surer than
 * either.
 *
 * @returns null for rounds whose flow nobody can tell (closed, part-open and not measured)
 */
export function flowsOf(upkeep: Upkeep): (RoundFlow | null)[] {
  const told = upkeep.rounds.map((round) => {
    const measured = measuredM3s(upkeep, round);
    return {
      tap: tapFlow(upkeep, round),
      measured: measured > lpmToM3s(LEAST_LPM) ? measured : null,
    };
  });
  const law = tapLaw(
    told.flatMap(({ tap, measured }) =>
      tap && measured !== null ? [{ ...tap, log: Math.log(measured / tap.m3s) }] : [],
    ),
    told.findLast(({ tap }) => tap)?.tap?.offsetU ?? 0,
  );
  return told.map(({ tap, measured }) => {
    if (!tap) return measured === null ? null : { m3s: measured, uShare: MEASURED_U, keptShare: 0 };
    const inferred = tap.m3s * Math.exp(law.bias + law.offsetBar * tap.perBar);
    const keptShare = keptAt(law, tap.perBar);
    if (measured === null) {
      return { m3s: inferred, uShare: Math.hypot(law.scatterU, tap.pressureU), keptShare };
    }
    // Two tellings of the same flow: what the tap does that day, and the measurement, each with its own scatter.
    const scatter = law.scatterU ** 2 + tap.pressureU ** 2;
    const weight = scatter / (scatter + MEASURED_U ** 2);
    const log = weight * Math.log(measured) + (1 - weight) * Math.log(inferred);
    return {
      m3s: Math.exp(log),
      uShare: Math.sqrt(weight) * MEASURED_U,
      keptShare: (1 - weight) * keptShare,
    };
  });
}

/** Flow written beside the pressures, or by bucket and watch on the same day with the same taps; 0 where neither was. */
function measuredM3s({ answers }: Upkeep, { day, readings }: Round): number {
  if (readings.flowLpm !== undefined) return lpmToM3s(readings.flowLpm);
  const taps = tapsKey(readings.taps);
  const bucket = answers.findLast(
    (answer) =>
      answer.kind === 'flow' &&
      Math.floor(answer.day) === Math.floor(day) &&
      tapsKey((answer.value as FlowTest).taps ?? { open: 1 }) === taps,
  );
  if (!bucket) return 0;
  const { litres, seconds } = bucket.value as FlowTest;
  return bucketFlow(litres, seconds).m3s;
}

/** What is kept wrong by the taps (log) and by the last gauge (bar): middle and covariance; and the taps' scatter (log). */
interface TapLaw {
  readonly bias: number;
  readonly offsetBar: number;
  readonly biasVar: number;
  readonly offsetVar: number;
  readonly covariance: number;
  readonly scatterU: number;
}

/** Measured flow over the tap law's (log), how the latter moves with the gauge's error, and its reading uncertainty. */
interface Ratio {
  readonly log: number;
  readonly perBar: number;
  readonly pressureU: number;
}

/** Least squares for both kept errors together, with what is known of them beforehand; then the scatter about them. */
function tapLaw(ratios: readonly Ratio[], offsetU: number): TapLaw {
  const first = keptErrors(ratios, offsetU, TAP_SCATTER_U);
  const squares = ratios.reduce(
    (sum, { log, perBar, pressureU }) =>
      sum + (log - first.bias - first.offsetBar * perBar) ** 2 - pressureU ** 2,
    0,
  );
  const expected = MEASURED_U ** 2 + TAP_SCATTER_U ** 2;
  const freedom = Math.max(0, ratios.length - 1);
  const variance = (squares + SCATTER_WORTH * expected) / (freedom + SCATTER_WORTH);
  const scatterU = Math.sqrt(Math.max(LEAST_SCATTER_U ** 2, variance - MEASURED_U ** 2));
  return keptErrors(ratios, offsetU, scatterU);
}

function keptErrors(ratios: readonly Ratio[], offsetU: number, scatterU: number): TapLaw {
  let [a, b, c] = [1 / TAP_KEPT_U ** 2, 0, 1 / Math.max(offsetU, 1e-6) ** 2];
  let [toBias, toOffset] = [0, 0];
  for (const { log, perBar, pressureU } of ratios) {
    const weight = 1 / (MEASURED_U ** 2 + scatterU ** 2 + pressureU ** 2);
    a += weight;
    b += weight * perBar;
    c += weight * perBar ** 2;
    toBias += weight * log;
    toOffset += weight * perBar * log;
  }
  const determinant = a * c - b ** 2;
  const [biasVar, offsetVar, covariance] = [c / determinant, a / determinant, -b / determinant];
  return {
    bias: biasVar * toBias + covariance * toOffset,
    offsetBar: covariance * toBias + offsetVar * toOffset,
    ...{ biasVar, offsetVar, covariance, scatterU },
  };
}

/** Standard uncertainty that both kept errors leave on a flow, as a share. */
const keptAt = ({ biasVar, offsetVar, covariance }: TapLaw, perBar: number): number =>
  Math.sqrt(biasVar + 2 * covariance * perBar + offsetVar * perBar ** 2);

/** Flow by the tap law at the pressure of the last gauge read, and what that gauge's errors make of it. */
interface TapFlow {
  readonly m3s: number;
  /** change of its log by an error of 1 bar */
  readonly perBar: number;
  /** standard uncertainty by reading the gauge once (share), and of the error it keeps, bar */
  readonly pressureU: number;
  readonly offsetU: number;
}

function tapFlow(upkeep: Upkeep, round: Round): TapFlow | null {
  const open = openTaps(round.readings.taps);
  if (!open) return null;
  const gauge = upkeep.resolved.line.findLast(
    (part): part is ResolvedOf<'gauge'> =>
      part.kind === 'gauge' && typeof round.readings.bar[part.id] === 'number',
  );
  const bar = gauge && round.readings.bar[gauge.id];
  if (!gauge || typeof bar !== 'number') return null;
  // What a filter behind the last gauge costs by now nobody can tell.
  const { elements } = upkeep.line;
  const behind = elements.slice(elements.findIndex((element) => element.id === gauge.id) + 1);
  if (behind.some((element) => element.kind === 'filter')) return null;
  const line: Line = { ...upkeep.line, water: waterAt(round.waterTempC) };
  const m3s = flowBeyond(line, gauge, barToPa(bar), open);
  if (!(m3s > lpmToM3s(LEAST_LPM))) return null;
  const { readingBar } = gaugeUncertainty(gauge);
  const pressureU = Math.log(flowBeyond(line, gauge, barToPa(bar + readingBar), open) / m3s);
  const offsetU = permissibleErrorBar(gauge) / Math.sqrt(3);
  return { m3s, perBar: -pressureU / readingBar, pressureU, offsetU };
}

/** Flow through clean parts behind a gauge and the open taps, for the pressure at the gauge, m³/s. */
function flowBeyond(
  line: Line,
  gauge: { readonly id: string; readonly heightM: number },
  pa: number,
  open: OpenTaps,
): number {
  const behind = line.elements.findIndex((element) => element.id === gauge.id) + 1;
  const risePa = line.water.densityKgM3 * GRAVITY_M_S2 * (line.house.heightM - gauge.heightM);
  const housePa = (flow: number) =>
    pa - risePa - lossBetweenPa(line, behind, line.elements.length, flow);
  const most = outletFlow(line, open, housePa(0));
  if (!(most > 0)) return 0;
  return fallingRoot((flow) => outletFlow(line, open, housePa(flow)) - flow, 0, most);
}

/** The open taps as the solver wants them; null where nothing, or nobody knows how much, is open. */
export function openTaps(taps: Taps): OpenTaps | null {
  return typeof taps === 'string' ? null : taps;
}
