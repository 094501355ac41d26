import { momentOf } from './days.ts';
import { type Fit, fitRun, type Run } from './fit.ts';
import { daysOfWork, type Upkeep } from './history.ts';
import { findPaceChange, type PaceChange } from './pace.ts';
import type { StageSeries } from './resistance.ts';
import type { UpkeepRules } from './rules.ts';

/** How a stage has loaded since its cartridges were new. */
export interface StageLoading {
  readonly series: StageSeries;
  /** moments at which any of its filters was renewed, earliest first */
  readonly changes: readonly number[];
  /** the run that goes on today; null without a reading since the last change */
  readonly run: Run | null;
  readonly fit: Fit | null;
  /** the pace changed within that run, and where it goes on from */
  readonly pace: PaceChange | null;
}

/** Spread of a new cartridge's resistance about its data sheet's, and about a default (within a factor of 2), in logs. */
const SHEET_LOG_SD = 0.12;
const ASSUMED_LOG_SD = Math.LN2 / 2;

/** Loading of one stage: its points since the last change, a change of pace looked for, every law fitted. */
export function loadingOf(series: StageSeries, upkeep: Upkeep, rules: UpkeepRules): StageLoading {
  const renewed = series.filters.map((id) => renewals(id, upkeep, rules));
  const changes = [...new Set(renewed.flat())].sort((a, b) => a - b);
  const from = changes.at(-1) ?? null;
  const points = series.points.filter((point) => from === null || point.day >= from);
  const first = points[0];
  if (!first) return { series, changes, run: null, fit: null, pace: null };
  const allNew = from !== null && renewed.every((days) => days.includes(from));
  const logSd = series.cleanAssumed ? ASSUMED_LOG_SD : SHEET_LOG_SD;
  const whole: Run = {
    from: from ?? first.day,
    points,
    start: allNew ? { resistance: series.clean, logSd } : null,
    keptPa: series.keptPa,
    // Of several filters one may load alone.
    stills: series.cleans.length > 1 ? series.cleans.map((own) => series.clean - own) : [],
  };
  const fit = fitRun(whole);
  const pace = fit && findPaceChange(whole, fit);
  return { series, changes, run: pace?.run ?? whole, fit: pace?.fit ?? fit, pace };
}

/** Moments at which a filter was renewed: the plant's own date, and the finished jobs that renew its medium. */
export function renewals(id: string, upkeep: Upkeep, rules: UpkeepRules): number[] {
  const part = upkeep.plant.line.find((one) => one.id === id);
  if (part?.kind !== 'filter') return [];
  const job = rules.lives[part.medium]?.job;
  const today = momentOf(upkeep.today, 1);
  const days = job === undefined ? [] : daysOfWork(upkeep.done, [job], id);
  if (part.fittedOn) days.push(momentOf(part.fittedOn, 0));
  return [...new Set(days)].filter((day) => day <= today).sort((a, b) => a - b);
}
