import type { ConditionTable, WorkRules } from './schema.ts';

type Conditions = WorkRules['conditions'];

/** True when the condition stands: made by a step, or by enough of the conditions it is made of. */
export function stands(id: string, made: readonly string[], conditions: Conditions): boolean {
  const table = conditions[id];
  if (table?.atLeast === undefined) return made.includes(id);
  return table.of.filter((part) => made.includes(part)).length >= table.atLeast;
}

/** Every condition that stands, in the order of the table. */
export function standing(made: readonly string[], conditions: Conditions): string[] {
  return Object.keys(conditions).filter((id) => stands(id, made, conditions));
}

/** Takes conditions away, with all that goes when they go; a condition made of others takes those with it. */
export function without(
  lost: readonly string[],
  made: readonly string[],
  conditions: Conditions,
): string[] {
  const gone = new Set<string>();
  const take = (id: string): void => {
    if (gone.has(id)) return;
    gone.add(id);
    for (const part of conditions[id]?.of ?? []) take(part);
    // what was never made takes nothing with it
    for (const other of hangingOn(id, conditions)) if (made.includes(other)) take(other);
  };
  for (const id of lost) take(id);
  return made.filter((id) => !gone.has(id));
}

/** The table never changes once it is read, so what goes with each condition is worked out once. */
const known = new WeakMap<Conditions, ReadonlyMap<string, readonly string[]>>();

/** Conditions that are lost with this one. */
function hangingOn(id: string, conditions: Conditions): readonly string[] {
  const table = known.get(conditions) ?? hangingTable(conditions);
  known.set(conditions, table);
  return table.get(id) ?? [];
}

function hangingTable(conditions: Conditions): ReadonlyMap<string, readonly string[]> {
  const table = new Map<string, string[]>();
  for (const [other, { lostWith }] of Object.entries(conditions)) {
    for (const id of lostWith) table.set(id, [...(table.get(id) ?? []), other]);
  }
  return table;
}

/** Conditions that a break of so many minutes puts in doubt. */
export function doubtfulAfter(
  minutes: number,
  made: readonly string[],
  conditions: Conditions,
): string[] {
  const isDoubtful = (table: ConditionTable | undefined) =>
    table?.checkAgainAfterMinutes !== undefined && minutes >= table.checkAgainAfterMinutes;
  return made.filter((id) => isDoubtful(conditions[id]));
}
