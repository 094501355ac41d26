import type { Taps } from '../case/taps.ts';
import { gaugeUncertainty } from '../hydraulics/gauge.ts';
import type { Line, OpenTaps } from '../hydraulics/line.ts';
import { lossBetweenPa, outletFlow } from '../hydraulics/line.ts';
import { fallingRoot } from '../hydraulics/root.ts';
import { barToPa, GRAVITY_M_S2, lpmToM3s } from '../hydraulics/units.ts';
import { waterAt } from '../hydraulics/water.ts';
import type { ResolvedOf } from '../plant/defaults.ts';
import type { Round, Upkeep } from './history.ts';
import { mean } from './offsets.ts';

/** Flow of one open reading. */
export interface RoundFlow {
  readonly m3s: number;
  /** standard uncertainty as a share of it */
  readonly uShare: number;
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
 * Flow of every open round: measured where it was, and by the tap law from the last gauge's pressure. Where some rounds
 * carry both, the tap law's kept error is taken out and its scatter learnt, so that both together are surer than either.
 *
 * @returns null for rounds whose flow nobody can tell (closed, part-open and not measured)
 */
export function flowsOf(upkeep: Upkeep): (RoundFlow | null)[] {
  const byTap = upkeep.rounds.map((round) => tapFlow(upkeep, round));
  const ratios = upkeep.rounds.flatMap(({ readings }, i) => {
    const tap = byTap[i];
    const flow = readings.flowLpm;
    return tap && flow !== undefined && flow > LEAST_LPM
      ? [{ log: Math.log(lpmToM3s(flow) / tap.m3s), u: tap.pressureU }]
      : [];
  });
  const law = tapLaw(ratios.map(({ log }) => log));
  return upkeep.rounds.map(({ readings }, i) => {
    const tap = byTap[i];
    const flow = readings.flowLpm;
    const measured =
      flow !== undefined && flow > LEAST_LPM ? { m3s: lpmToM3s(flow), u: MEASURED_U } : null;
    if (!tap) return measured && { m3s: measured.m3s, uShare: measured.u };
    const inferred = tap.m3s * Math.exp(law.bias);
    const u = Math.hypot(law.biasU, law.scatterU, tap.pressureU);
    if (!measured) return { m3s: inferred, uShare: u };
    // Two independent tellings of the same flow, weighted by what each is good for.
    const weight = u ** 2 / (u ** 2 + measured.u ** 2);
    const log = weight * Math.log(measured.m3s) + (1 - weight) * Math.log(inferred);
    return { m3s: Math.exp(log), uShare: (u * measured.u) / Math.hypot(u, measured.u) };
  });
}

/** What the rounds with both tellings say of the tap law: its kept error (log) and its scatter. */
function tapLaw(logs: readonly number[]): { bias: number; biasU: number; scatterU: number } {
  const n = logs.length;
  if (n === 0) return { bias: 0, biasU: TAP_KEPT_U, scatterU: TAP_SCATTER_U };
  const middle = mean(logs);
  const squares = logs.reduce((sum, log) => sum + (log - middle) ** 2, 0);
  const expected = MEASURED_U ** 2 + TAP_SCATTER_U ** 2;
  const variance = (squares + SCATTER_WORTH * expected) / (n - 1 + SCATTER_WORTH);
  const scatterU = Math.sqrt(Math.max(LEAST_SCATTER_U ** 2, variance - MEASURED_U ** 2));
  const known = variance / n;
  const kept = TAP_KEPT_U ** 2;
  return {
    bias: (middle * kept) / (kept + known),
    biasU: Math.sqrt((kept * known) / (kept + known)),
    scatterU,
  };
}

/** Flow by the tap law at the pressure of the last gauge read, and what the gauge's error makes of it (share). */
function tapFlow(upkeep: Upkeep, round: Round): { m3s: number; pressureU: number } | null {
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
  const errors = gaugeUncertainty(gauge);
  const more = flowBeyond(line, gauge, barToPa(bar + errors.readingBar), open);
  return { m3s, pressureU: Math.log(more / m3s) };
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
