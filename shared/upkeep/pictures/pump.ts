import { say } from '../../diagnosis/say.ts';
import { headM } from '../../hydraulics/pump.ts';
import { lpmToM3s, m3sToLpm } from '../../hydraulics/units.ts';
import type { Words } from '../../ruleset/words.ts';
import { dayOf } from '../days.ts';
import type { Outlook } from '../due.ts';
import { frameOf, type Picture, pictureOf, reading, stroke, through, WATER } from './frame.ts';

const STEPS = 48;

/** The pump's curve, what is left of it by the readings (dashed), and the points read. Null without a point. */
export function pumpPicture({ upkeep, pump }: Outlook, words: Words): Picture | null {
  const curve = upkeep.line.pump?.curve;
  const last = pump?.points.at(-1);
  if (!curve || !pump || !last) return null;
  const points = upkeep.resolved.line.flatMap((part) => (part.kind === 'pump' ? part.curve : []));
  const mostLpm = Math.max(
    ...points.map(({ flowLpm }) => flowLpm),
    ...pump.points.map(({ flowM3s }) => m3sToLpm(flowM3s)),
  );
  const high = 1.12 * Math.max(headM(curve, 0), ...pump.points.map((point) => point.headM));
  const { x, y, axes } = frameOf(
    { low: 0, high: mostLpm, label: String, name: say(words, 'picture-axis-flow') },
    { low: 0, high, label: String, name: say(words, 'picture-axis-head') },
  );
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
    head: last.headM.toFixed(1),
    flow: m3sToLpm(last.flowM3s).toFixed(1),
    expected: headM(curve, last.flowM3s).toFixed(1),
  });
  return pictureOf('pump', say(words, 'picture-pump-title'), text, drawn);
}
