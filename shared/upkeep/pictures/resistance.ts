import { say } from '../../diagnosis/say.ts';
import { numberText, type Units } from '../../ruleset/figures.ts';
import type { Words } from '../../ruleset/words.ts';
import { dayNumber, dayOf, NO_END } from '../days.ts';
import type { Outlook } from '../due.ts';
import { resistanceBand } from '../pace.ts';
import { stageReports } from '../report.ts';
import { uncertaintyAt } from '../resistance.ts';
import {
  frameOf,
  hatched,
  label,
  one,
  type Picture,
  pictureOf,
  RUST,
  reading,
  stroke,
  through,
  tickIn,
} from './frame.ts';

const STEPS = 48;
const SHARES = [0.1, 0.5, 0.9] as const;
/** Room behind the last day, as a share of the span. */
const MARGIN = 0.04;
/** Between the labels of two changes, on the paper. */
const LABEL_ROOM = 64;

/**
 * Resistance of one stage over time: readings with whiskers, changes, the limit, and how it is expected to go on (middle
 * and hatched 80 % band) up to the interval of its date. Null where it was not read twice.
 *
 * @param index of the stage in the outlook
 */
export function resistancePicture(
  outlook: Outlook,
  index: number,
  words: Words,
  units: Units,
): Picture | null {
  const stage = outlook.stages[index];
  const report = stageReports(outlook)[index];
  const [firstPoint, secondPoint] = stage?.series.points ?? [];
  if (!stage || !report || !firstPoint || !secondPoint) return null;
  const { series, fit, run, changes } = stage;
  const date = outlook.dates[index] ?? null;
  const limit = report.limitTimesClean;
  const today = dayNumber(outlook.upkeep.today);
  const first = Math.min(firstPoint.day, ...changes);
  const end = Math.max(today, date ? Math.min(date.to, today + 730) : today + 30);
  const last = end + MARGIN * (end - first);
  const points = series.points.map((point) => ({
    day: point.day,
    times: point.resistance / series.clean,
    u: (2 * uncertaintyAt(point, Math.max(0, point.resistance))) / series.clean,
  }));
  const most = Math.max(...points.map(({ times, u }) => times + u));
  const high = 1.15 * Math.max(most, limit === null ? 0 : Math.min(limit, 20 * most));
  const { x, y, axes, right } = frameOf(
    { low: first, high: last, label: dayOf, name: '', at: datesBetween(first, last) },
    {
      ...{ low: 0, high, label: tickIn(units) },
      name: say(words, 'picture-axis-times'),
    },
  );
  const id = `resistance-${series.from}-${series.to}`;
  const top = (times: number) => y(Math.max(0, Math.min(high, times)));
  const drawn = [axes];
  const labels: string[] = [];
  if (fit && run) {
    const days = Array.from(
      { length: STEPS + 1 },
      (_, i) => run.from + (i * (last - run.from)) / STEPS,
    );
    const bands = days.map((day) => resistanceBand(fit, day, SHARES));
    const lineOf = (share: number) =>
      days.map((day, i) => [x(day), top((bands[i]?.[share] ?? 0) / series.clean)] as const);
    const middle = lineOf(1);
    const read = x(fit.now.day);
    // Solid as far as it was read, dashed where it is foretold.
    drawn.push(
      hatched(id, lineOf(2), lineOf(0)),
      stroke(through(middle.filter(([at]) => at <= read)), 2),
      stroke(through(middle.filter(([at]) => at >= read)), 2, 'stroke-dasharray="8 4"'),
    );
  }
  const upright = (day: number) => `M${one(x(day))},${one(y(0))}V${one(y(high))}`;
  let labelled = Number.NEGATIVE_INFINITY;
  for (const change of changes) {
    drawn.push(stroke(upright(change), 1, 'stroke-dasharray="2 3"'));
    // Changes that follow closely share a label.
    if (x(change) < labelled + LABEL_ROOM) continue;
    labelled = x(change);
    labels.push(label(labelled + 4, y(high) + 10, say(words, 'picture-changed'), 'start'));
  }
  drawn.push(stroke(upright(today), 0.75));
  labels.push(label(x(today) - 4, y(0) - 6, say(words, 'picture-today'), 'end'));
  if (limit !== null && limit <= high) {
    const across = `M${one(x(first))},${one(y(limit))}H${right}`;
    drawn.push(stroke(across, 1.5, 'stroke-dasharray="7 4"', RUST));
    labels.push(label(x(first) + 72, y(limit) - 6, say(words, 'picture-limit'), 'start'));
    if (date) {
      const span = `M${one(x(date.from))},${one(y(limit))}H${one(x(Math.min(date.to, last)))}`;
      drawn.push(stroke(span, 6, '', RUST));
    }
  }
  drawn.push(
    ...points.map(({ day, times, u }) =>
      reading(x(day), top(times), top(times - u), top(times + u)),
    ),
    ...labels,
  );
  const filters = series.filters.join(', ');
  const lastPoint = points.at(-1);
  const tenths = (value: number): string => numberText(value, 1, units.language);
  const text = [
    say(words, 'picture-resistance-text', {
      n: points.length,
      from: dayOf(firstPoint.day),
      to: dayOf(lastPoint?.day ?? today),
      last: lastPoint ? tenths(lastPoint.times) : '–',
    }),
    ...(limit === null ? [] : [say(words, 'picture-limit-text', { limit: tenths(limit) })]),
    date
      ? say(words, 'picture-forecast', {
          on: dayOf(date.on),
          early: dayOf(date.from),
          late: date.to < dayNumber(NO_END) ? dayOf(date.to) : '…',
        })
      : say(words, 'picture-no-forecast'),
  ].join(' ');
  return pictureOf(id, say(words, 'picture-resistance-title', { filters }), text, drawn);
}

/** Five days that part a span evenly: room for a whole date under each. */
const datesBetween = (first: number, last: number): number[] =>
  [0, 1, 2, 3, 4].map((i) => first + (i * (last - first)) / 4);
