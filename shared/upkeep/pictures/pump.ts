import { say } from '../../diagnosis/say.ts';
import { headM } from '../../hydraulics/pump.ts';
import { lpmToM3s, m3sToLpm } from '../../hydraulics/units.ts';
import {
  flowText,
  flowUnits,
  inVolumeUnit,
  numberText,
  type Units,
} from '../../ruleset/figures.ts';
import type { Words } from '../../ruleset/words.ts';
import { dayOf } from '../days.ts';
import type { Outlook } from '../due.ts';
import {
  frameOf,
  type Picture,
  pictureOf,
  reading,
  stroke,
  through,
  tickIn,
  WATER,
} from './frame.ts';

const STEPS = 48;

/** The pump's curve, what is left of it by the readings (dashed), and the points read. Null without a point. */
export function pumpPicture({ upkeep, pump }: Outlook, words: Words, units: Units): Picture | null {
  const curve = upkeep.line.pump?.curve;
  const last = pump?.points.at(-1);
  if (!curve || !pump || !last) return null;
  const points = upkeep.resolved.line.flatMap((part) => (part.kind === 'pump' ? part.curve : []));
  const mostLpm = Math.max(
    ...points.map(({ flowLpm }) => flowLpm),
    ...pump.points.map(({ flowM3s }) => m3sToLpm(flowM3s)),
  );
  const high = 1.12 * Math.max(headM(curve, 0), ...pump.points.map((point) => point.headM));
  const inUnit = (lpm: number): number => inVolumeUnit(lpm, units.volume);
  const label = tickIn(units);
  const {
    x: across,
    y,
    axes,
  } = frameOf(
    { low: 0, high: inUnit(mostLpm), label, name: flowUnits[units.volume] },
    { low: 0, high, label, name: say(words, 'picture-axis-head') },
  );
  const x = (lpm: number): number => across(inUnit(lpm));
  const metres = (value: number): string => numberText(value, 1, units.language);
  const course = (share: number) =>
    through(
      Array.from({ length: STEPS + 1 }, (_, i) => {
        const lpm = (i * mostLpm) / STEPS;
        return [x(lpm), y(share * headM(curve, lpmToM3s(lpm)))] as const;
      }),
    );
  const drawn = [
    axes,
    stroke(course(1), 3, '', WATER),
    stroke(course(pump.headShare), 1.5, 'stroke-dasharray="6 4"', WATER),
    ...pump.points.map((point) => {
      const u = 2 * point.u * headM(curve, point.flowM3s);
      const at = m3sToLpm(point.flowM3s);
      return reading(x(at), y(point.headM), y(point.headM - u), y(point.headM + u));
    }),
  ];
  const text = say(words, 'picture-pump-text', {
    n: pump.points.length,
    day: dayOf(last.day),
    head: metres(last.headM),
    flow: flowText(m3sToLpm(last.flowM3s), units, 1),
    expected: metres(headM(curve, last.flowM3s)),
  });
  return pictureOf('pump', say(words, 'picture-pump-title'), text, drawn);
}
