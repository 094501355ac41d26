import type { Told } from '../diagnosis/result.ts';
import { say } from '../diagnosis/say.ts';
import { m3sToLpm, paToBar } from '../hydraulics/units.ts';
import { dropDigits, flowText, numberText, pressureText, type Units } from '../ruleset/figures.ts';
import type { Words } from '../ruleset/words.ts';
import { dayNumber, dayOf } from './days.ts';
import type { Outlook } from './due.ts';
import type { StageLoading } from './loading.ts';
import { expectedOn } from './pace.ts';
import { uncertaintyAt } from './resistance.ts';
import type { UpkeepRules } from './rules.ts';
import { doseCourse } from './uv.ts';

/** A vessel that loses less than this a month, or gains, is not said to lose. */
const LEAST_LOSS_BAR = 0.005;
/** A single reading so many standard uncertainties off is said to be read again. */
const ODD = 4;

/**
 * What the record shows beside the dates, in the reader's units: the state of each stage, changes of pace, pump, vessel,
 * dose, what is missing.
 */
export function remarksOf(
  outlook: Outlook,
  rules: UpkeepRules,
  words: Words,
  units: Units,
): Told[] {
  const { upkeep, limit, stages } = outlook;
  const tell = (key: string, holes: Readonly<Record<string, string | number>> = {}): Told => ({
    id: key,
    text: say(words, key, holes),
  });
  const remarks: Told[] = stages.flatMap((stage) =>
    stageRemarks(stage, outlook, words, units, tell),
  );
  const { need } = upkeep.line.house;
  if (limit?.failsClean) {
    const holes = { flow: flow(limit.cleanFlowM3s, units), need: flow(need.flowM3s, units) };
    remarks.push(tell('need-fails-clean', holes));
  } else if (limit && !Number.isFinite(limit.resistance)) remarks.push(tell('need-never-fails'));
  else if (limit) {
    const clean = upkeep.line.elements
      .filter((element) => element.kind === 'filter')
      .reduce((sum, filter) => sum + filter.linear, 0);
    remarks.push(tell('stage-limit', { times: tenths(limit.resistance / clean, units) }));
  }
  return [
    ...remarks,
    ...pumpRemarks(outlook, units, tell),
    ...vesselRemarks(outlook, units, tell),
    ...doseRemarks(outlook, rules, units, tell),
    ...offsetRemarks(outlook, tell),
    ...unreadRemarks(outlook, tell),
    ...(upkeep.gone.length > 0 ? [tell('parts-gone', { ids: upkeep.gone.join(', ') })] : []),
    ...(upkeep.later > 0 ? [tell('entries-later', { n: upkeep.later, today: upkeep.today })] : []),
  ];
}

type Tell = (key: string, holes?: Readonly<Record<string, string | number>>) => Told;

const flow = (m3s: number, units: Units): string => flowText(m3sToLpm(m3s), units, 1);
const tenths = (value: number, { language }: Units): string => numberText(value, 1, language);

function stageRemarks(
  { series, fit, run, pace }: StageLoading,
  { upkeep }: Outlook,
  words: Words,
  units: Units,
  tell: Tell,
): Told[] {
  const filters = series.filters.join(', ');
  if (!fit || !run || run.points.length < 2) return [tell('too-few-readings', { filters })];
  const { resistance, u, day } = fit.now;
  const { need } = upkeep.line.house;
  const quadratic = upkeep.line.elements
    .filter((element) => series.filters.includes(element.id))
    .reduce((sum, element) => sum + element.quadratic, 0);
  const [law, share] = Object.entries(fit.laws).sort((a, b) => b[1] - a[1])[0] ?? ['straight', 0];
  const told = [
    tell('stage-now', {
      filters,
      times: tenths(resistance / series.clean, units),
      u: tenths((2 * u) / series.clean, units),
      day: dayOf(day),
      drop: pressureText(
        paToBar(need.flowM3s * (resistance + quadratic * need.flowM3s)),
        units,
        dropDigits,
      ),
    }),
    tell('stage-law', { law: say(words, `law-${law}`), percent: Math.round(100 * share) }),
  ];
  if (pace) told.push(tell(`pace-${pace.kind}`, { filters, day: dayOf(pace.day) }));
  for (const point of run.points) {
    const expected = expectedOn(fit, point.day);
    const off = (point.resistance - expected) / uncertaintyAt(point, expected);
    if (Math.abs(off) > ODD) told.push(tell('reading-odd', { filters, day: dayOf(point.day) }));
  }
  return told;
}

function pumpRemarks({ pump }: Outlook, units: Units, tell: Tell): Told[] {
  if (!pump) return [];
  const percent = Math.round(100 * pump.headShare);
  const limit = Math.round(100 * pump.limitShare);
  const told = [tell('pump-now', { percent, u: Math.round(200 * pump.u), limit })];
  if (pump.forecast && pump.perYear !== null) {
    told.push(tell('pump-trend', { percent: tenths(-100 * pump.perYear, units) }));
  }
  return told;
}

function vesselRemarks({ vessel }: Outlook, units: Units, tell: Tell): Told[] {
  if (!vessel) return [];
  const limit = pressureText(vessel.limitBar, units);
  const told = [tell('vessel-now', { charge: pressureText(vessel.prechargeBar, units), limit })];
  const { lostPerMonthBar } = vessel;
  if (lostPerMonthBar !== null && lostPerMonthBar >= LEAST_LOSS_BAR) {
    told.push(tell('vessel-trend', { lost: pressureText(lostPerMonthBar, units, dropDigits) }));
  }
  return told;
}

function doseRemarks({ upkeep }: Outlook, rules: UpkeepRules, units: Units, tell: Tell): Told[] {
  return upkeep.resolved.line.flatMap((uv) => {
    if (uv.kind !== 'uv') return [];
    const course = doseCourse(upkeep, rules, uv);
    if (!course) return [];
    return [
      tell('uv-dose-now', {
        dose: Math.round(course.doseOn(dayNumber(upkeep.today))),
        flow: flowText(course.flowLpm, units, 1),
        needed: numberText(course.neededMjCm2, 1, units.language, true),
      }),
    ];
  });
}

/** Two gauges whose own errors nobody can take out. */
function offsetRemarks({ upkeep, stages }: Outlook, tell: Tell): Told[] {
  return stages.flatMap(({ series }) => {
    if (series.to === upkeep.line.house.id) return [];
    const closed = upkeep.rounds.some(
      ({ readings }) =>
        readings.taps === 'closed' &&
        typeof readings.bar[series.from] === 'number' &&
        typeof readings.bar[series.to] === 'number',
    );
    return closed ? [] : [tell('offsets-unknown', { from: series.from, to: series.to })];
  });
}

/** Filters of whose resistance nothing is known beside others of which something is. */
function unreadRemarks({ upkeep, stages }: Outlook, tell: Tell): Told[] {
  const read = new Set(stages.flatMap(({ series }) => series.filters));
  const unread = upkeep.plant.line.filter(({ kind, id }) => kind === 'filter' && !read.has(id));
  if (read.size === 0 || unread.length === 0) return [];
  return [tell('filters-unread', { filters: unread.map(({ id }) => id).join(', ') })];
}
