import type { Day } from '../case/answer.ts';
import { partsInPlace } from '../case/places.ts';
import type { Line } from '../hydraulics/line.ts';
import { m3sToLpm } from '../hydraulics/units.ts';
import type { Assumed } from '../plant/defaults.ts';
import { seriesByFlow } from './by-flow.ts';
import { addMonths, DAYS_PER_YEAR, dayNumber, dayOf, NO_END } from './days.ts';
import { type DateForecast, forecastDates } from './forecast.ts';
import { daysOfWork, type Upkeep } from './history.ts';
import { loadingOf, renewals, type StageLoading } from './loading.ts';
import { limitLogSd, type NeedLimit, needLimit } from './need.ts';
import { type PumpWear, pumpWear } from './pump-wear.ts';
import { type StageSeries, stageSeries, sum } from './resistance.ts';
import type { UpkeepRules } from './rules.ts';
import { doseCourse, doseFails, lampClock, lampEnds } from './uv.ts';
import { type VesselGas, vesselGas } from './vessel-gas.ts';

/** Why something falls due (contract). */
export type Because = 'resistance' | 'service-life' | 'lamp-hours' | 'dose' | 'inspection';

export interface DueEntry {
  readonly part: string;
  readonly because: Because;
  readonly on: Day;
  /** 80 % interval */
  readonly from: Day;
  readonly to: Day;
  /** the binding one of this part: the earliest of its reasons */
  readonly first: boolean;
  /** what to do then; null: look at it */
  readonly job: string | null;
  /** key of the phrase that says why, and its figures */
  readonly why: { readonly key: string; readonly holes: Readonly<Record<string, Figure>> };
}

/** What stands in a hole of a phrase: pressures and flows get the reader's unit when they are said. */
export type Figure = string | number | { readonly bar: number } | { readonly lpm: number };

/** Everything that a plant's record says about its upkeep. */
export interface Outlook {
  readonly upkeep: Upkeep;
  readonly limit: NeedLimit | null;
  readonly stages: readonly StageLoading[];
  /** by index of the stage */
  readonly dates: readonly (DateForecast | null)[];
  readonly pump: PumpWear | null;
  readonly vessel: VesselGas | null;
  readonly due: readonly DueEntry[];
  readonly assumed: readonly Assumed[];
}

/** Nothing is told beyond. */
const HORIZON_YEARS = 5;
/** A sleeve fouls between half and one and a half times as fast as the table says, 8 times in 10 (our own estimate). */
const SLEEVE_RANGE = [0.5, 1.5] as const;

type Undated = Omit<DueEntry, 'on' | 'from' | 'to' | 'first'> & {
  readonly on: number;
  readonly from: number;
  readonly to: number;
};

/** The due list and what it rests on. */
export function outlookOf(upkeep: Upkeep, rules: UpkeepRules): Outlook {
  const horizon = dayNumber(upkeep.today) + HORIZON_YEARS * DAYS_PER_YEAR;
  const pump = pumpWear(upkeep, rules, horizon);
  const limit = needLimit(asWorn(upkeep.line, pump));
  const stages = seriesOf(upkeep, rules).map((series) => loadingOf(series, upkeep, rules));
  const dates =
    limit && !limit.failsClean
      ? stageDates(upkeep, stages, limit, horizon)
      : stages.map(() => null);
  const vessel = vesselGas(upkeep, rules, horizon);
  const found = [
    ...stages.flatMap((stage, i) => byResistance(upkeep, rules, stage, dates[i] ?? null)),
    ...byLife(upkeep, rules, stages),
    ...byLamp(upkeep, rules, horizon),
    ...byInspection(upkeep, rules, pump, vessel),
  ];
  return {
    ...{ upkeep, limit, stages, dates, pump, vessel },
    due: inOrder(found.filter((entry) => entry.on <= horizon)),
    assumed: upkeep.assumed,
  };
}

/** Between gauges where there are gauges, else by what flows at the taps. */
function seriesOf(upkeep: Upkeep, rules: UpkeepRules): StageSeries[] {
  const byGauges = stageSeries(upkeep, rules).filter((series) => series.points.length > 0);
  if (byGauges.length > 0) return byGauges;
  const byFlow = seriesByFlow(upkeep);
  return byFlow ? [byFlow] : [];
}

/** Standard uncertainties under new at which a pump is worn for sure; less is not taken from its curve. */
const WORN_FOR_SURE = 3;

/** The line with what is left of its pump: a worn pump brings the limit nearer. */
function asWorn(line: Line, wear: PumpWear | null): Line {
  const { pump } = line;
  if (!pump || !wear || wear.headShare > 1 - WORN_FOR_SURE * wear.u) return line;
  return { ...line, pump: { ...pump, headFactor: Math.max(0.05, wear.headShare) } };
}

function stageDates(
  upkeep: Upkeep,
  stages: readonly StageLoading[],
  limit: NeedLimit,
  horizon: number,
): (DateForecast | null)[] {
  const read = new Set(stages.flatMap((stage) => stage.series.filters));
  const unread = upkeep.line.elements.filter((one) => one.kind === 'filter' && !read.has(one.id));
  const others = sum(unread.map((filter) => filter.linear));
  // What all flows are kept wrong by stands in every stage's resistance alike: the limit is as unsure against them.
  const flowSd = Math.max(0, ...stages.map(({ series }) => series.keptFlowU));
  const limitSd = Math.hypot(limitLogSd(upkeep.line, upkeep.assumed, limit), flowSd);
  return forecastDates(stages, limit.resistance, { others, limitLogSd: limitSd, horizon });
}

/** Every filter of a stretch that loads: readings cannot tell which of several it is. */
function byResistance(
  upkeep: Upkeep,
  rules: UpkeepRules,
  { series }: StageLoading,
  date: DateForecast | null,
): Undated[] {
  if (!date) return [];
  const { need } = upkeep.line.house;
  const holes = {
    open: need.open,
    flow: { lpm: m3sToLpm(need.flowM3s) },
    from: series.from,
    to: series.to,
  };
  const byFlow = series.to === upkeep.line.house.id;
  const several = series.filters.length > 1 ? 'due-resistance-several' : 'due-resistance';
  const key = byFlow ? 'due-resistance-flow' : several;
  return series.filters.map((part) => ({
    ...{ part, because: 'resistance', on: date.on, from: date.from, to: date.to },
    job: jobOfFilter(upkeep, rules, part),
    why: { key, holes },
  }));
}

function jobOfFilter(upkeep: Upkeep, rules: UpkeepRules, id: string): string | null {
  const part = upkeep.plant.line.find((one) => one.id === id);
  return part?.kind === 'filter' ? (rules.lives[part.medium]?.job ?? null) : null;
}

const onOneDay = (day: number) => ({ on: day, from: day, to: day });

/**
 * A cartridge by date. Where no reading speaks of a filter its date is all there is, and says so; if nobody wrote down when it
 * was fitted either, it counts from the first day of the record.
 */
function byLife(upkeep: Upkeep, rules: UpkeepRules, stages: readonly StageLoading[]): Undated[] {
  const read = new Set(stages.flatMap(({ fit, series }) => (fit ? series.filters : [])));
  return upkeep.plant.line.flatMap((part): Undated[] => {
    if (part.kind !== 'filter') return [];
    const months = part.lifeMonths ?? rules.lives[part.medium]?.months;
    const fitted = renewals(part.id, upkeep, rules).at(-1);
    const from = fitted ?? (read.has(part.id) ? null : firstDay(upkeep));
    if (months === undefined || from === null) return [];
    const how = read.has(part.id) ? '' : fitted === undefined ? '-first' : '-unread';
    const holes = { months, fittedOn: dayOf(from) };
    return [
      {
        ...{ part: part.id, because: 'service-life', job: jobOfFilter(upkeep, rules, part.id) },
        ...onOneDay(addMonths(Math.floor(from), months)),
        why: { key: `due-service-life${how}`, holes },
      },
    ];
  });
}

/** The first day of a record; null without an entry. */
function firstDay({ rounds, answers, done }: Upkeep): number | null {
  const days = [...rounds, ...answers, ...done].map(({ day }) => day);
  return days.length > 0 ? Math.floor(Math.min(...days)) : null;
}

function byLamp(upkeep: Upkeep, rules: UpkeepRules, horizon: number): Undated[] {
  return upkeep.resolved.line.flatMap((uv): Undated[] => {
    if (uv.kind !== 'uv') return [];
    const clock = lampClock(upkeep, rules, uv);
    if (!clock) return [lampOfUnknownAge(upkeep, rules, uv)];
    const entries: Undated[] = [
      {
        ...{ part: uv.id, because: 'lamp-hours', job: rules.lamp.job },
        ...onOneDay(lampEnds(clock)),
        why: {
          key: clock.counted ? 'due-lamp-counted' : 'due-lamp-fitted',
          holes: { hours: clock.lifeH, perDay: clock.perDay },
        },
      },
    ];
    const course = doseCourse(upkeep, rules, uv);
    if (!course) return entries;
    const start = clock.counted ? dayNumber(upkeep.today) : clock.day;
    const on = doseFails(course, start, horizon, 1);
    if (on === null) return entries;
    const from = doseFails(course, start, horizon, SLEEVE_RANGE[1]) ?? on;
    const to = doseFails(course, start, horizon, SLEEVE_RANGE[0]) ?? horizon;
    const holes = {
      neededMjCm2: course.neededMjCm2,
      flow: { lpm: course.flowLpm },
      uvtPercent: course.uvtPercent,
    };
    const job = rules.dose.sleeveJobs[0] ?? null;
    return [
      ...entries,
      { part: uv.id, because: 'dose', on, from, to, job, why: { key: 'due-dose', holes } },
    ];
  });
}

/** A lamp goes on glowing after its light no longer kills germs: one whose age nobody knows is not waited for. */
function lampOfUnknownAge(
  upkeep: Upkeep,
  rules: UpkeepRules,
  uv: { readonly id: string; readonly lampLifeH: number | null },
): Undated {
  return {
    ...{ part: uv.id, because: 'lamp-hours', job: rules.lamp.job },
    ...onOneDay(dayNumber(upkeep.today)),
    why: { key: 'due-lamp-unknown', holes: { hours: uv.lampLifeH ?? rules.lamp.hours } },
  };
}

/**
 * What is looked at though nothing shows: from its last time, else from the first day of the record; without any record
 * it is due today, and says so. One entry for a part: the earliest.
 */
function byInspection(
  upkeep: Upkeep,
  rules: UpkeepRules,
  pump: PumpWear | null,
  vessel: VesselGas | null,
): Undated[] {
  const first = firstDay(upkeep);
  const entries = rules.inspections.flatMap((one): Undated[] =>
    partsInPlace(one.in, upkeep.plant).map((part) => {
      const last = daysOfWork(upkeep.done, one.jobs, part).at(-1);
      const since = last ?? first;
      const on =
        since === null ? dayNumber(upkeep.today) : addMonths(Math.floor(since), one.months);
      const how = last !== undefined ? '' : first !== null ? '-first' : '-new';
      const key = `due-inspection-${one.id}${how}`;
      return {
        ...{ part, because: 'inspection', ...onOneDay(on), job: one.jobs[0] ?? null },
        why: { key, holes: { months: one.months } },
      };
    }),
  );
  if (pump?.forecast) entries.push({ ...worn(pump, pump.forecast), job: rules.pump.job });
  if (vessel?.forecast) {
    const holes = { limit: { bar: vessel.limitBar } };
    entries.push({
      ...{ part: vessel.part, because: 'inspection', ...interval(vessel.forecast) },
      job: rules.vessel.jobs[0] ?? null,
      why: { key: 'due-precharge', holes },
    });
  }
  const earliest = new Map<string, Undated>();
  for (const entry of entries) {
    const other = earliest.get(entry.part);
    if (!other || entry.on < other.on) earliest.set(entry.part, entry);
  }
  return [...earliest.values()];
}

function worn(pump: PumpWear, forecast: DateForecast): Omit<Undated, 'job'> {
  const holes = { share: Math.round(pump.limitShare * 100) };
  return {
    ...{ part: pump.part, because: 'inspection', ...interval(forecast) },
    why: { key: 'due-pump', holes },
  };
}

const interval = ({ on, from, to }: DateForecast) => ({ on, from, to });

function inOrder(entries: readonly Undated[]): DueEntry[] {
  const sorted = [...entries].sort(
    (a, b) => a.on - b.on || Number(a.part > b.part) - Number(a.part < b.part),
  );
  const seen = new Set<string>();
  return sorted.map(({ part, because, on, from, to, job, why }) => {
    const first = !seen.has(part);
    seen.add(part);
    const end = dayOf(Math.min(to, dayNumber(NO_END)));
    return { part, because, on: dayOf(on), from: dayOf(from), to: end, first, job, why };
  });
}
