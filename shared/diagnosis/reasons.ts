import {
  dropDigits,
  flowText,
  pressureFigure,
  pressureText,
  type Units,
} from '../ruleset/figures.ts';
import type { Words } from '../ruleset/words.ts';
import type { Judgement } from './judge.ts';
import type { Reason, SegmentReading } from './result.ts';
import { say, sayTaps, sayValue } from './say.ts';
import { cleanDropBar, standingAt } from './segment-readings.ts';

const LEAST_WEIGHT = 0.05;

const logOdds = (p: number) => {
  const safe = Math.min(1 - 1e-12, Math.max(1e-12, p));
  return Math.log(safe / (1 - safe));
};

/** What every answer did to the odds of one cause, strongest first; its figures in the reader's units. */
export function reasonsFor(
  cause: string,
  judgement: Judgement,
  segments: readonly SegmentReading[],
  words: Words,
  units: Units,
): Reason[] {
  const now = judgement.probabilities.get(cause) ?? 0;
  return [...judgement.without]
    .map(([finding, probabilities]) => ({
      finding,
      weight: logOdds(now) - logOdds(probabilities.get(cause) ?? 0),
    }))
    .filter(({ weight }) => Math.abs(weight) >= LEAST_WEIGHT)
    .sort((a, b) => Math.abs(b.weight) - Math.abs(a.weight) || (a.finding < b.finding ? -1 : 1))
    .map(({ finding, weight }) => ({
      finding,
      weight: Number(weight.toFixed(2)),
      text: textOf(finding, cause, judgement, segments, words, units),
    }));
}

function textOf(
  finding: string,
  cause: string,
  judgement: Judgement,
  segments: readonly SegmentReading[],
  words: Words,
  units: Units,
): string {
  const { facts, rules } = judgement;
  const question = rules.questions[finding];
  if (!question) return finding;
  if (question.kind === 'readings') return readingText(cause, judgement, segments, words, units);
  const answer = sayValue(words, finding, question, facts.values.get(finding), units);
  return say(words, 'reason-answer', {
    question: words.questions[finding]?.short ?? finding,
    answer,
  });
}

/** The drop where the cause would sit, else the largest drop; without drops the levels themselves. */
function readingText(
  cause: string,
  judgement: Judgement,
  segments: readonly SegmentReading[],
  words: Words,
  units: Units,
): string {
  const { facts, model, candidates } = judgement;
  const places = candidates.filter((c) => c.suspect.cause === cause).map((c) => c.suspect.part);
  const own = segments.filter((segment) => segment.parts.some((part) => places.includes(part)));
  const [largest] = [...own].sort((a, b) => b.dropBar - a.dropBar);
  if (!largest) {
    // what was read before work on a part no longer speaks of it
    const read = [...facts.readings.values()].filter(({ staleParts }) => staleParts.length === 0);
    // the pump shows at rest, what takes pressure only with water running
    const told = [
      read.find(({ taps }) => taps === 'closed'),
      read.find(({ taps }) => taps !== 'closed'),
    ].flatMap((readings) => {
      const shown = Object.entries(readings?.bar ?? {}).flatMap(([gauge, bar]) =>
        typeof bar === 'number' ? `${gauge} ${pressureText(bar, units)}` : [],
      );
      return readings && shown.length > 0
        ? say(words, 'reason-levels-at', {
            taps: sayTaps(words, readings.taps),
            levels: shown.join(', '),
          })
        : [];
    });
    return say(words, 'reason-levels', { levels: told.join('; ') });
  }
  const { from, to, dropBar, flowLpm } = largest;
  if (largest.tooSmall) return say(words, 'reason-no-drop', { from, to });
  const at = (id: string) => facts.plant.line.findIndex((part) => part.id === id);
  const drop = pressureText(dropBar, units, dropDigits);
  if (flowLpm === null) return say(words, 'reason-drop-no-flow', { from, to, drop });
  const standing = standingAt(judgement, largest.taps, from);
  const clean = cleanDropBar(model, at(from), at(to), flowLpm, standing);
  return say(words, 'reason-drop', {
    from,
    to,
    drop,
    flow: flowText(flowLpm, units, units.volume === 'L' ? 0 : 1),
    clean: pressureFigure(clean, units, dropDigits),
  });
}
