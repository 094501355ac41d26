import type { Audience } from '../../shared/case/answer.ts';
import { type Facts, factsOf } from '../../shared/case/facts.ts';
import { partsInPlace } from '../../shared/case/places.ts';
import { isAway } from '../../shared/diagnosis/away.ts';
import { holds } from '../../shared/diagnosis/condition.ts';
import { diagnose } from '../../shared/diagnosis/diagnose.ts';
import { priorityOf } from '../../shared/diagnosis/priority.ts';
import type { Result } from '../../shared/diagnosis/result.ts';
import { jobName, say } from '../../shared/diagnosis/say.ts';
import { vanFor } from '../../shared/diagnosis/van.ts';
import { answerText, stepText } from '../../shared/interview/answer-text.ts';
import { interviewMachine, modeOf, rebuild } from '../../shared/interview/machine.ts';
import { type Given, givenOf, type Step, stepKey } from '../../shared/interview/step.ts';
import type { Plant } from '../../shared/plant/schema.ts';
import { inReaderUnits } from '../../shared/ruleset/figures.ts';
import type { Job, RuleSet } from '../../shared/ruleset/schema.ts';
import { type Likely, pictureOf } from '../drawing/picture.ts';
import { cardOf, type Loaded } from './cards.ts';
import type { Caller, Card, CaseNow, Earlier, Looked, ShownCause } from './protocol.ts';

/** Everything a screen shows of a case, computed from its answers. Throws an InputError as the diagnosis does. */
export function look(loaded: Loaded, now: CaseNow): Looked {
  const { rules, words } = loaded;
  const { plant, answers, audience, day, units } = now;
  const facts = factsOf(plant, answers, rules, { system: day });
  const result = diagnose({ plant, answers, audience }, rules, words, day, units);
  const given = givenOf(answers, rules);
  const placesOf = (cause: string): readonly string[] => {
    const place = rules.causes[cause]?.in;
    return place ? partsInPlace(place, facts.plant) : [];
  };
  const causes = result.causes.map((cause) => ({
    ...cause,
    name: words.causes[cause.id]?.name ?? cause.id,
    says: inReaderUnits(words.causes[cause.id]?.says[audience] ?? '', units),
    overdue: cause.overdue === true,
  }));
  const loads = (van: readonly string[]) => van.map((id) => words.van[id] ?? id);
  const vanOf = (job: Job | undefined) => (job ? vanFor(job, facts.plant) : []);
  const likely = result.stopped ? null : (causes.find(({ overdue }) => !overdue) ?? null);
  return {
    result,
    likely,
    causes,
    mode: modeOf(rebuild(interviewMachine(rules), answers)),
    plant: facts.plant,
    isTold: facts.asked.has(rules.head.newTrouble ?? ''),
    card: nextCard(loaded, now, facts.plant, result),
    earlier: given.map((one) => earlierOf(loaded, now, facts, one)),
    plan: result.plan.map((job) => ({
      ...job,
      name: jobName(words, job.job, audience),
      causeName: words.causes[job.cause]?.name ?? job.cause,
      overdue: causes.some(({ id, overdue }) => overdue && id === job.cause),
      van: loads(vanOf(rules.jobs[job.job])),
    })),
    van: loads(result.dispatch.van),
    hurry: priorityOf({ facts, rules }).because,
    whom: (result.stopped?.because ?? []).map((sign) => words.dangers[sign]?.whom ?? sign),
    picture: pictureOf(facts, result.segments, likely && placed(likely, placesOf(likely.id))),
    caller: callerOf(facts, rules, audience),
    others: othersOf(loaded, now, facts, given),
  };
}

/** Where the likely cause sits, and how likely each place is in all. */
function placed(cause: ShownCause, plain: readonly string[]): Likely {
  const { id, probability, parts = plain.map((part) => ({ id: part, probability: 1 })) } = cause;
  return {
    cause: id,
    parts: parts.map((part) => ({ ...part, probability: part.probability * probability })),
  };
}

function callerOf(facts: Facts, rules: RuleSet, audience: Audience): Caller | null {
  const { caller } = rules.head;
  if (audience !== 'agent' || !caller) return null;
  const away = isAway(facts, rules, audience);
  return {
    step: { question: caller.question },
    isAway: away,
    otherwise: away ? caller.there : caller.away,
  };
}

function nextCard(loaded: Loaded, now: CaseNow, plant: Plant, { next }: Result): Card | null {
  if (!next) return null;
  const step: Step = next.ask
    ? { question: next.question, taps: next.ask.taps }
    : { question: next.question };
  return cardOf(loaded, now, plant, { step, text: next.text, why: next.why });
}

function earlierOf(
  { rules, words }: Loaded,
  { units }: CaseNow,
  { values, told }: Facts,
  given: Given,
): Earlier {
  const { question } = given.step;
  const answer = answerText(given, rules, words, units);
  return {
    step: given.step,
    key: stepKey(given.step),
    label: stepText(given.step, words),
    text:
      told.has(question) && !values.has(question)
        ? say(words, 'answer-of-no-part', { answer })
        : answer,
  };
}

/**
 * Questions that this plant can answer as it was told to be, those with gauges once for each usual state of the taps: a
 * pump that was switched off is not run to be measured. Where the caller is, only an agent asks.
 */
function othersOf(
  { rules, words }: Loaded,
  { audience }: CaseNow,
  facts: Facts,
  given: readonly Given[],
): Looked['others'] {
  const steps: Step[] = Object.entries(rules.questions).flatMap(([question, table]): Step[] => {
    // what an answer led to may be told without it
    if (!table.when.every(({ answered, ...condition }) => holds(condition, facts, rules)))
      return [];
    const states = ['closed', { open: 1 }, { open: 2 }] as const;
    return table.kind === 'readings' ? states.map((taps) => ({ question, taps })) : [{ question }];
  });
  const keys = new Set(steps.map(stepKey));
  const more = given.map(({ step }) => step).filter((step) => !keys.has(stepKey(step)));
  const caller = audience === 'agent' ? undefined : rules.head.caller?.question;
  return [...steps, ...more]
    .filter(({ question }) => question !== caller)
    .map((step) => ({ step, key: stepKey(step), label: stepText(step, words) }));
}
