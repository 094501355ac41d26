import type { SegmentReading } from '../../../shared/diagnosis/result.ts';
import { sayTaps } from '../../../shared/diagnosis/say.ts';
import {
  dropDigits,
  flowText,
  pressureFigure,
  timesText,
} from '../../../shared/ruleset/figures.ts';
import { type Showing, section } from './result.ts';
import { wrap } from './wrap.ts';

/** Pressure lost between the gauges, with its uncertainty and how many times clean it is. */
export function segmentsText(segments: readonly SegmentReading[], showing: Showing): string {
  return section(
    showing.say('heading-pressure'),
    segments.map((segment) => segmentText(segment, showing)),
  );
}

function segmentText(segment: SegmentReading, showing: Showing): string {
  const { say, units, words } = showing;
  const { from, to, parts, dropBar, uncertaintyBar, timesClean, flowLpm } = segment;
  const place = {
    from,
    to,
    parts: parts.length > 0 ? parts.join(', ') : say('no-part-between'),
    taps: sayTaps(words, segment.taps),
  };
  if (!segment.measured) return wrap(say('segment-unread', place), '  ', '    ');
  if (segment.tooSmall) return wrap(say('segment-too-little', place), '  ', '    ');
  if (dropBar < 0) return wrap(say('segment-rises', place), '  ', '    ');
  const drop = say('segment-lost', {
    ...place,
    drop: pressureFigure(dropBar, units, dropDigits),
    uncertainty: pressureFigure(uncertaintyBar, units, dropDigits),
    unit: units.pressure,
  });
  const times =
    timesClean === null
      ? say('segment-flow-unknown')
      : timesClean < 2
        ? say('segment-as-clean')
        : say('segment-times-clean', { times: timesText(timesClean, units.language) });
  const flow = flowLpm === null ? '' : say('segment-at-flow', { flow: flowText(flowLpm, units) });
  return wrap([drop, flow, times].filter((text) => text !== '').join(', '), '  ', '    ');
}
