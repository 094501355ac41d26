import { tapsKey } from '../../case/taps.ts';
import { say, sayTaps } from '../../diagnosis/say.ts';
import { gaugeUncertainty } from '../../hydraulics/gauge.ts';
import type { ResolvedOf } from '../../plant/defaults.ts';
import { dropDigits, inPressureUnit, pressureText, type Units } from '../../ruleset/figures.ts';
import type { Words } from '../../ruleset/words.ts';
import { dayOf } from '../days.ts';
import type { Round, Upkeep } from '../history.ts';
import { apartOnDay } from '../offsets.ts';
import type { UpkeepRules } from '../rules.ts';
import {
  frameOf,
  label,
  type Picture,
  pictureOf,
  reading,
  stroke,
  through,
  tickIn,
  WATER,
} from './frame.ts';

type Gauge = ResolvedOf<'gauge'>;

/**
 * Pressure along the line then and now: the first and the last round read with the same taps open, at the first gauge's
 * height, each gauge's own error taken out by the closed readings. Then is thin and dashed, now is thick with whiskers.
 *
 * @returns null where no tap state was read twice at two gauges
 */
export function pressurePicture(
  upkeep: Upkeep,
  rules: UpkeepRules,
  words: Words,
  units: Units,
): Picture | null {
  const gauges = upkeep.resolved.line.filter((part): part is Gauge => part.kind === 'gauge');
  const pair = thenAndNow(upkeep, gauges);
  const [firstGauge] = gauges;
  if (!pair || !firstGauge) return null;
  const levelled = (round: Round) =>
    gauges.flatMap((gauge, i) => {
      const bar = round.readings.bar[gauge.id];
      if (typeof bar !== 'number') return [];
      const apart = i === 0 ? 0 : apartOnDay(upkeep, rules, firstGauge, gauge, round.day).bar;
      return [{ gauge, i, bar: bar + apart }];
    });
  const then = levelled(pair.then);
  const now = levelled(pair.now);
  const high = 1.15 * Math.max(0.1, ...[...then, ...now].map(({ bar }) => bar));
  const inUnit = (bar: number): number => inPressureUnit(bar, units.pressure);
  const {
    x,
    y: up,
    axes,
  } = frameOf(
    {
      ...{ low: -0.5, high: gauges.length - 1 + roomBehind(gauges.length), name: '' },
      at: gauges.map((_, i) => i),
      label: (value) => gauges[value]?.id ?? '',
    },
    { low: 0, high: inUnit(high), label: tickIn(units), name: units.pressure },
  );
  const y = (bar: number): number => up(inUnit(bar));
  const path = (points: typeof now) => through(points.map(({ i, bar }) => [x(i), y(bar)] as const));
  const last = now.at(-1);
  const lastThen = then.at(-1);
  const labelOf = (key: string, round: Round) => say(words, key, { day: dayOf(round.day) });
  /** Behind the end of a line: the higher one's words above it, the lower one's under it. */
  const beside = ({ i, bar }: (typeof now)[number], above: boolean, text: string) =>
    label(x(i) + 8, y(bar) + (above ? -6 : 18), text, 'start');
  const drawn = [
    axes,
    stroke(path(then), 1.5, 'stroke-dasharray="6 4"', WATER),
    stroke(path(now), 3.5, '', WATER),
    ...now.map(({ gauge, i, bar }) => {
      const u = 2 * gaugeUncertainty(gauge).readingBar;
      return reading(x(i), y(bar), y(bar - u), y(bar + u));
    }),
    ...(last && lastThen
      ? [
          beside(last, last.bar > lastThen.bar, labelOf('picture-now', pair.now)),
          beside(lastThen, last.bar <= lastThen.bar, labelOf('picture-then', pair.then)),
        ]
      : []),
  ];
  const title = say(words, 'picture-pressure-title', {
    taps: sayTaps(words, pair.now.readings.taps),
  });
  const text = now
    .map(({ gauge, bar }) => {
      const before = then.find((one) => one.gauge.id === gauge.id);
      return say(words, 'picture-pressure-text', {
        gauge: gauge.id,
        then: before ? pressureText(before.bar, units, dropDigits) : '–',
        now: pressureText(bar, units, dropDigits),
      });
    })
    .join(' ');
  return pictureOf('pressure', title, text, drawn);
}

/** Behind the last gauge stand a word and a date: in steps between gauges, for they are narrower the more there are. */
const roomBehind = (gauges: number): number => Math.max(0.5, 0.3 * (gauges - 0.5));

/** The last open round at two gauges or more, and the first with the same taps. */
function thenAndNow(
  { rounds }: Upkeep,
  gauges: readonly Gauge[],
): { readonly then: Round; readonly now: Round } | null {
  const useful = rounds.filter(
    ({ readings }) =>
      readings.taps !== 'closed' &&
      gauges.filter(({ id }) => typeof readings.bar[id] === 'number').length >= 2,
  );
  for (const now of useful.toReversed()) {
    const key = tapsKey(now.readings.taps);
    const then = useful.find((round) => tapsKey(round.readings.taps) === key);
    if (then && then.day < now.day) return { then, now };
  }
  return null;
}
