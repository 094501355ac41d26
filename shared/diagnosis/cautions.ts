import type { Audience } from '../case/answer.ts';
import { plantWarnings } from '../plant/warnings.ts';
import type { Caution } from '../ruleset/schema.ts';
import type { Words } from '../ruleset/words.ts';
import { seenAnswers } from './bands.ts';
import { holds } from './condition.ts';
import type { Judgement } from './judge.ts';
import type { PlannedJob, Stopped, Told } from './result.ts';

/** What is answered in a list of danger signs: stop, and whom to call. Null while there is none. */
export function stoppedBy(
  { facts, rules }: Judgement,
  words: Words,
  audience: Audience,
): Stopped | null {
  for (const [id, question] of Object.entries(rules.questions)) {
    if (!question.againIfUnknown) continue;
    const because = facts.values.get(id);
    if (!Array.isArray(because) || because.length === 0) continue;
    const calls = because.map((sign) => words.dangers[sign]?.call[audience] ?? sign);
    return { because, call: calls.join('\n\n') };
  }
  return null;
}

/** The cautions that this case raises, in the rule set's order. */
export function cautionsFor(
  judgement: Judgement,
  stopped: Stopped | null,
  plan: readonly PlannedJob[],
  words: Words,
  audience: Audience,
): Told[] {
  const { rules } = judgement;
  const fromDanger = new Set(
    (stopped?.because ?? []).flatMap((sign) => rules.dangers[sign]?.cautions ?? []),
  );
  const raised = (caution: Caution) =>
    caution.when.some((condition) => meets(condition, judgement, stopped, plan));
  const water = (id: string) => fromDanger.has(id);
  const ids = Object.entries(rules.cautions)
    .filter(([id, caution]) => water(id) || raised(caution))
    .map(([id]) => id);
  return ids.map((id) => ({ id, text: words.cautions[id]?.[audience] ?? id }));
}

function meets(
  condition: Caution['when'][number],
  judgement: Judgement,
  stopped: Stopped | null,
  plan: readonly PlannedJob[],
): boolean {
  const { facts, rules, probabilities } = judgement;
  if ('question' in condition) {
    const question = rules.questions[condition.question];
    const value = facts.told.get(condition.question);
    if (!question || value === undefined) return false;
    return seenAnswers(question, value).seen.some((answer) => condition.oneOf.includes(answer));
  }
  if ('hazard' in condition) {
    if (facts.notToDrink.includes(condition.hazard)) return true;
    const chances = Object.entries(rules.causes)
      .filter(([, cause]) => cause.hazard === condition.hazard)
      .map(([id]) => probabilities.get(id) ?? 0);
    return Math.max(0, ...chances) >= condition.atLeast;
  }
  if ('cause' in condition) return (probabilities.get(condition.cause) ?? 0) >= condition.atLeast;
  if ('warning' in condition)
    return plantWarnings(facts.plant).some((warning) => warning.id === condition.warning);
  // Who does not know of a danger is still cautioned.
  if ('stopped' in condition) return stopped !== null || dangersUnknown(judgement).length > 0;
  if ('household' in condition) return vulnerable(judgement);
  if ('all' in condition) return condition.all.every((one) => holds(one, facts, rules));
  if ('job' in condition) return plan.some((step) => step.job === condition.job);
  return plan.some((step) => step.by === 'electrician' || step.by === 'plumber');
}

/** The questions after danger signs that nobody could answer. */
export const dangersUnknown = ({ facts, rules }: Pick<Judgement, 'facts' | 'rules'>): string[] =>
  Object.keys(rules.questions).filter(
    (id) => rules.questions[id]?.againIfUnknown && facts.unknown.has(id),
  );

function vulnerable({ facts, rules }: Judgement): boolean {
  return [...rules.head.urgent, ...rules.head.soon].some(({ question, oneOf }) => {
    const table = rules.questions[question];
    const value = facts.values.get(question);
    return (
      table?.combine === 'none' &&
      Array.isArray(value) &&
      value.some((item) => oneOf.includes(item))
    );
  });
}
