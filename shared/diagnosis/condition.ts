import type { Facts } from '../case/facts.ts';
import { partsInPlace } from '../case/places.ts';
import type { Condition } from '../ruleset/schema.ts';

/** Whether the plant and what was answered meet a condition. An answer not given meets no `answered`. */
export function holds(condition: Condition, facts: Facts): boolean {
  const { has, control, answered, notAnswered, gauges } = condition;
  if (has && !has.some((place) => partsInPlace(place, facts.plant).length > 0)) return false;
  if (control) {
    const pump = facts.plant.line.find((part) => part.kind === 'pump');
    if (pump?.control && !control.includes(pump.control.kind)) return false;
  }
  if (answered && !isGiven(answered, facts)) return false;
  if (notAnswered && isGiven(notAnswered, facts)) return false;
  if (gauges)
    return facts.plant.line.filter((part) => part.kind === 'gauge').length >= gauges.atLeast;
  return true;
}

function isGiven(
  { question, oneOf }: { readonly question: string; readonly oneOf: readonly string[] },
  facts: Facts,
): boolean {
  const value = facts.values.get(question);
  const given = Array.isArray(value) ? value : [value];
  return given.some((item) => oneOf.includes(String(item)));
}
