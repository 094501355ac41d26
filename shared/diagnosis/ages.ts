import type { Facts } from '../case/facts.ts';
import type { Part } from '../plant/schema.ts';
import type { Cause } from '../ruleset/cause.ts';
import type { RuleSet } from '../ruleset/schema.ts';

/** How old a part is against its life: a share of its life, or null where nobody knows. `source` says how it is known. */
export interface Age {
  readonly share: number;
  readonly source: 'counter' | 'date';
}

const DAY_MS = 86_400_000;
const DAYS_PER_MONTH = 365.25 / 12;
const HOURS_PER_MONTH = DAYS_PER_MONTH * 24;

/** Whole days from one calendar day to another, negative when `to` is earlier. */
function daysBetween(from: string, to: string): number {
  return Math.round((Date.parse(to) - Date.parse(from)) / DAY_MS);
}

/** The latest day the part is known to have been new: plant, answers and finished jobs. */
function fittedOn(part: Part, facts: Facts, rules: RuleSet): string | null {
  const days: string[] = [];
  if (part.kind === 'filter' && part.fittedOn) days.push(part.fittedOn);
  if (part.kind === 'uv' && part.lampFittedOn) days.push(part.lampFittedOn);
  if (part.kind === 'filter') {
    for (const [id, question] of Object.entries(rules.questions)) {
      const dates = question.kind === 'dates' ? facts.values.get(id) : undefined;
      if (!dates) continue;
      const { [part.id]: ofPart, [part.medium]: ofMedium } = dates as Record<string, string>;
      if (ofPart) days.push(ofPart);
      if (ofMedium) days.push(ofMedium);
    }
  }
  for (const work of facts.work) {
    if (rules.jobs[work.job]?.renews && work.parts.includes(part.id)) days.push(work.day);
  }
  return days.length > 0 ? (days.sort().at(-1) ?? null) : null;
}

/** A part's age as a share of the life that the part's own label, else the rule set, gives it. */
export function ageOf(cause: Cause, part: Part, facts: Facts, rules: RuleSet): Age | null {
  const months = lifeMonths(cause, part);
  if (months === null) return null;
  const since = fittedOn(part, facts, rules);
  if (part.kind === 'uv') {
    const counted = Object.entries(rules.questions).find(
      ([id, q]) => q.kind === 'hours' && facts.values.has(id),
    );
    const lampChanged = facts.work.some(
      (work) => rules.jobs[work.job]?.renews && work.parts.includes(part.id),
    );
    if (counted && !lampChanged) {
      return {
        share: Number(facts.values.get(counted[0])) / (months * HOURS_PER_MONTH),
        source: 'counter',
      };
    }
  }
  if (since === null) return null;
  return {
    share: Math.max(0, daysBetween(since, facts.today)) / (months * DAYS_PER_MONTH),
    source: 'date',
  };
}

function lifeMonths(cause: Cause, part: Part): number | null {
  if (part.kind === 'uv' && part.lampLifeH !== undefined) return part.lampLifeH / HOURS_PER_MONTH;
  if (part.kind === 'filter' && part.lifeMonths !== undefined) return part.lifeMonths;
  return cause.lifeMonths ?? null;
}
