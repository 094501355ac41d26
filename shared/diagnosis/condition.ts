import type { Facts } from '../case/facts.ts';
import { gaugeBeforeValve, hasAny } from '../case/places.ts';
import type { Plant } from '../plant/schema.ts';
import type { Condition, RuleSet } from '../ruleset/schema.ts';
import { seenAnswers } from './bands.ts';

/** Whether the plant and what was answered meet a condition. An answer not given meets no `answered`. */
export function holds(
  condition: Condition,
  facts: Facts,
  rules: Pick<RuleSet, 'questions'>,
): boolean {
  const { answered, notAnswered } = condition;
  if (answered && !isGiven(answered, facts, rules)) return false;
  if (notAnswered && isGiven(notAnswered, facts, rules)) return false;
  return isPlantFor(condition, facts.plant);
}

/** Whether the plant alone meets it, whatever was answered. */
export function isPlantFor({ has, control, gauges }: Condition, plant: Plant): boolean {
  if (has && !hasAny(has, plant)) return false;
  if (control) {
    const pump = plant.line.find((part) => part.kind === 'pump');
    if (pump?.control && !control.includes(pump.control.kind)) return false;
  }
  return !gauges || haveGauges(gauges, plant);
}

function haveGauges(
  { atLeast, beforeValve }: NonNullable<Condition['gauges']>,
  plant: Plant,
): boolean {
  if (beforeValve && !gaugeBeforeValve(plant)) return false;
  return plant.line.filter((part) => part.kind === 'gauge').length >= atLeast;
}

/** Whether a question was answered by one of these; measured figures come to answers by their bands. */
export function isGiven(
  { question, oneOf }: { readonly question: string; readonly oneOf: readonly string[] },
  { values }: Pick<Facts, 'values'>,
  { questions }: Pick<RuleSet, 'questions'>,
): boolean {
  const table = questions[question];
  const value = values.get(question);
  const given = table?.bands ? seenAnswers(table, value).seen : [value].flat();
  return given.some((item) => oneOf.includes(String(item)));
}
