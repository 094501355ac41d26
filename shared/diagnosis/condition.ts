import type { Facts } from '../case/facts.ts';
import { gaugeBeforeValve, hasAny } from '../case/places.ts';
import type { Plant } from '../plant/schema.ts';
import type { Condition } from '../ruleset/schema.ts';

/** Whether the plant and what was answered meet a condition. An answer not given meets no `answered`. */
export function holds(condition: Condition, facts: Facts): boolean {
  const { answered, notAnswered } = condition;
  if (answered && !isGiven(answered, facts)) return false;
  if (notAnswered && isGiven(notAnswered, facts)) return false;
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

function isGiven(
  { question, oneOf }: { readonly question: string; readonly oneOf: readonly string[] },
  facts: Facts,
): boolean {
  const value = facts.values.get(question);
  const given = Array.isArray(value) ? value : [value];
  return given.some((item) => oneOf.includes(String(item)));
}
