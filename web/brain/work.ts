import type { Taps } from '../../shared/case/taps.ts';
import { diagnose } from '../../shared/diagnosis/diagnose.ts';
import type { Result } from '../../shared/diagnosis/result.ts';
import { dangerQuestion } from '../../shared/interview/danger.ts';
import { optionsOf } from '../../shared/interview/form.ts';
import type { RuleSet } from '../../shared/ruleset/schema.ts';
import { apply, replay } from '../../shared/work/apply.ts';
import { featuresOf, targetIndex } from '../../shared/work/features.ts';
import { holesOf } from '../../shared/work/holes.ts';
import { type Measured, proveWork } from '../../shared/work/proving.ts';
import { answersOf, notesOf } from '../../shared/work/record.ts';
import type { DrinkingHazard } from '../../shared/work/schema.ts';
import { sheetOf } from '../../shared/work/sheet.ts';
import type { WorkContext, WorkState } from '../../shared/work/state.ts';
import { type StepView, viewOf } from '../../shared/work/view.ts';
import { cardOf, type Loaded, type Sheets } from './cards.ts';
import type { Card, CaseNow, ShownWork, WorkNow } from './protocol.ts';

/**
 * A job as its screen shows it, rebuilt from the case and what has happened at the job.
 * @throws InputError when the rule set has no sheet for the job
 */
export function showWork(all: Loaded & Sheets, now: CaseNow, asked: WorkNow): ShownWork {
  const { rules, words, work, workWords } = all;
  const { plant, audience } = now;
  const table = work.jobs[asked.job];
  const before = diagnose(caseOf(now), rules, words, now.day);
  const planned = before.plan.find(({ job }) => job === asked.job);
  const index = targetIndex(plant, table?.at ?? 'house', asked.part ?? planned?.parts[0]);
  const part = plant.line[index]?.id ?? null;
  const sheet = sheetOf(work, asked.job, featuresOf(plant, index));
  const context: WorkContext = { sheet, conditions: work.conditions };
  const advice = adviceIn(before);
  const state = replay(context, asked.events, advice, asked.at);
  const last = asked.events.at(-1);
  const refused =
    last && apply(context, replay(context, asked.events.slice(0, -1), advice), last).refused;
  const view = viewOf(
    context,
    state,
    workWords,
    holesOf(plant, index, sheet.by, workWords),
    audience,
  );
  return {
    view,
    name: words.jobs[asked.job]?.name ?? asked.job,
    part,
    entry: view.step && entryOf(all, now, view.step),
    advice: adviceTexts(state.advice, now, all),
    refused: refused ? refused.needs.map((id) => workWords.conditions[id] ?? id) : null,
    dangers: optionsOf(dangerQuestion(rules), Object.keys(rules.dangers), words),
    end: state.ended ? endOf(all, now, asked, context, state, part, before) : null,
  };
}

const caseOf = ({ plant, answers, audience }: CaseNow) => ({ plant, answers, audience });

/** What was proved: the case with what the job adds, judged again. */
function endOf(
  { rules, words }: Loaded,
  now: CaseNow,
  asked: WorkNow,
  context: WorkContext,
  state: WorkState,
  part: string | null,
  before: Result,
): ShownWork['end'] {
  const answers = answersOf(
    context,
    state,
    asked.events,
    part,
    rules.questions,
    dangerQuestion(rules),
  );
  const isWork = answers.some(({ question }) => question === 'work-done');
  const cause = before.plan.find(({ job }) => job === asked.job)?.cause ?? null;
  const after = diagnose(
    caseOf({ ...now, answers: [...now.answers, ...answers] }),
    rules,
    words,
    now.day,
  );
  // what is merely overdue is told elsewhere; it says nothing about whether the work helped
  const sought = ({ causes, segments }: Result): Measured => ({
    causes: causes.filter(({ id }) => rules.causes[id]?.pastLife !== true),
    segments,
  });
  const proof = isWork ? proveWork(sought(before), sought(after), cause, part) : null;
  return {
    answers,
    proof,
    left: (proof?.left ?? []).map(({ id, probability }) => ({
      name: words.causes[id]?.name ?? id,
      probability,
    })),
    calls: state.danger.flatMap((sign) => words.dangers[sign]?.call[now.audience] ?? []),
    notes: notesOf(asked.events),
  };
}

/** The question whose form a step's entry is typed into. */
function entryOf(all: Loaded, now: CaseNow, step: StepView): Card | null {
  const ofKind = (kind: RuleSet['questions'][string]['kind']): string =>
    Object.keys(all.rules.questions).find((id) => all.rules.questions[id]?.kind === kind) ?? '';
  switch (step.input) {
    case 'readings-closed':
      return cardOf(all, now, now.plant, {
        step: { question: ofKind('readings'), taps: 'closed' },
      });
    case 'readings-open':
      return cardOf(all, now, now.plant, {
        step: { question: ofKind('readings'), taps: tapsBefore(now, ofKind('readings')) },
      });
    case 'flow':
      return cardOf(all, now, now.plant, { step: { question: ofKind('flow') } });
    case 'value':
      return cardOf(all, now, now.plant, { step: { question: ofKind('pressure') } });
    default:
      return null;
  }
}

/** The same taps as before prove the work. */
function tapsBefore({ answers }: CaseNow, readings: string): Taps {
  const latest = answers.findLast(({ question, value }) => {
    const taps = (value as { taps?: Taps } | null)?.taps;
    return question === readings && taps !== undefined && taps !== 'closed';
  });
  return (latest?.value as { taps: Taps } | undefined)?.taps ?? { open: 1 };
}

/** Which caution speaks of a hazard in drinking water. */
const cautionFor: Readonly<Record<DrinkingHazard, string>> = {
  microbes: 'boil-or-bottled',
  chemical: 'bottled-do-not-boil',
  metal: 'bottled-do-not-boil',
};

function adviceIn({ cautions }: Result): DrinkingHazard[] {
  const hazards: readonly DrinkingHazard[] = ['microbes', 'chemical'];
  return hazards.filter((hazard) => cautions.some(({ id }) => id === cautionFor[hazard]));
}

function adviceTexts(
  hazards: readonly DrinkingHazard[],
  { answers, audience }: CaseNow,
  { words }: Loaded,
): string[] {
  if (hazards.length === 0) return [];
  const household = answers.findLast(({ question }) => question === 'household')?.value;
  const isFrail = Array.isArray(household) && household.length > 0;
  const ids = new Set(hazards.map((hazard) => cautionFor[hazard]));
  return [...ids, ...(isFrail ? ['vulnerable-household'] : [])].flatMap(
    (id) => words.cautions[id]?.[audience] ?? [],
  );
}
