import type { Answer, Audience, Costs } from '../case/answer.ts';
import { factsOf } from '../case/facts.ts';
import type { Taps } from '../case/taps.ts';
import { siUnits, type Units } from '../ruleset/figures.ts';
import type { RuleSet } from '../ruleset/schema.ts';
import type { Words } from '../ruleset/words.ts';
import { isAway } from './away.ts';
import { cautionsFor, stoppedBy } from './cautions.ts';
import { pricingOf } from './cost.ts';
import { dispatchFor } from './dispatch.ts';
import { type Judgement, judge } from './judge.ts';
import { type NextAsk, NOTHING_TO_ASK, nextAsk } from './next.ts';
import { placesOf } from './place-shares.ts';
import { planFor } from './plan.ts';
import { reasonsFor } from './reasons.ts';
import { remarksFor, warningsFor } from './remarks.ts';
import type { NextQuestion, RankedCause, Result, SegmentReading } from './result.ts';
import { say, sayReadings, sayTaps } from './say.ts';
import { segmentReadings } from './segment-readings.ts';
import { worldsOf } from './worlds.ts';

/** One case as the command line and the server take it. */
export interface Case {
  readonly plant: unknown;
  readonly answers: readonly Answer[];
  readonly today?: string | undefined;
  readonly audience?: Audience | undefined;
  readonly costs?: Costs | undefined;
}

/**
 * Judges one case under one rule set, in the words of one language. Pure: the same input gives the same result.
 * @param systemDay the calendar day used when neither the case nor its answers carry one
 * @param units what figures inside texts are told in; numbers of the result itself stay in bar and L/min
 * @throws InputError naming the place of the first thing that cannot be used
 */
export function diagnose(
  input: Case,
  rules: RuleSet,
  words: Words,
  systemDay: string,
  units: Units = siUnits,
): Result {
  const audience = input.audience ?? 'householder';
  const facts = factsOf(input.plant, input.answers, rules, {
    given: input.today,
    system: systemDay,
  });
  const judgement = judge(facts, rules);
  const worlds = worldsOf(judgement);
  const segments = segmentReadings(judgement, worlds);
  const pricing = pricingOf(rules, audience, input.costs);
  const stopped = stoppedBy(judgement, words, audience);
  const plan = planFor(judgement, worlds, segments, pricing, input.costs, words, audience, units);
  const next: NextAsk = stopped
    ? NOTHING_TO_ASK
    : nextAsk(judgement, worlds, plan.table, pricing, audience);
  const jobs = stopped ? [] : plan.jobs;
  return {
    ruleSet: rules.head.version,
    today: facts.today,
    causes: rankedCauses(judgement, segments, words, units),
    segments,
    next: nextInWords(next, judgement, words, audience),
    plan: jobs,
    dispatch: dispatchFor(judgement, jobs, stopped),
    stopped,
    cautions: cautionsFor(judgement, stopped, jobs, words, audience),
    warnings: warningsFor(judgement, words, units),
    assumed: judgement.model.assumed,
    remarks: stopped ? [] : remarksFor(judgement, next, words, units),
  };
}

function rankedCauses(
  judgement: Judgement,
  segments: readonly SegmentReading[],
  words: Words,
  units: Units,
): RankedCause[] {
  return [...judgement.probabilities]
    .sort(([a, pa], [b, pb]) => pb - pa || (a < b ? -1 : 1))
    .map(([id, probability]) => {
      const parts = judgement.rules.causes[id] ? placesOf(judgement, id) : [];
      return {
        id,
        probability: round(probability),
        ...(parts.length > 0 && {
          parts: parts.map((part) => ({ id: part.id, probability: round(part.probability) })),
        }),
        ...(judgement.suspects.overdue.has(id) && { overdue: true }),
        reasons: reasonsFor(id, judgement, segments, words, units),
      };
    });
}

const round = (probability: number) => Number(Math.min(1, Math.max(0, probability)).toPrecision(6));

function nextInWords(
  { ask, worth }: NextAsk,
  judgement: Judgement,
  words: Words,
  audience: Audience,
): NextQuestion | null {
  if (!ask) return null;
  const { rules, facts, model } = judgement;
  const question = rules.questions[ask.question];
  const text = words.questions[ask.question];
  if (!question || !text) return null;
  const again = facts.timesUnknown.has(ask.question) ? text.again : undefined;
  const afar = isAway(facts, rules, audience) ? text.afar : undefined;
  const gaugesText = (taps: Taps): string =>
    sayReadings(words, taps, audience) ?? `${text.ask[audience]} (${sayTaps(words, taps)})`;
  const closable =
    question.kind === 'choice' || question.kind === 'list' || question.kind === 'tank-level';
  return {
    question: ask.question,
    ask: ask.taps ? { taps: ask.taps, gauges: model.gauges.map((gauge) => gauge.id) } : null,
    choices: closable
      ? question.answers.map((id) => ({ id, label: text.answers[id]?.label ?? id }))
      : null,
    text: again ?? afar ?? (ask.taps ? gaugesText(ask.taps) : text.ask[audience]),
    why: whyAsked(text.why, worth, words),
  };
}

/** Below this a saving is not worth telling. */
const TOLD_MINUTES = 5;

function whyAsked(why: string, worth: NextAsk['worth'], words: Words): string {
  const minutes = Math.round(worth?.savingMinutes ?? 0);
  return minutes < TOLD_MINUTES ? why : `${why} ${say(words, 'worth-minutes', { minutes })}`;
}
