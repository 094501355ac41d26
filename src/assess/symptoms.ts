import type { Question, RuleSet } from '../../shared/ruleset/schema.ts';
import type { Random } from './random.ts';

/** Draws answers from the generator's tables, several causes combined as the question says. */
export interface Signs {
  readonly worst: (question: string) => string;
  readonly oneOf: (question: string, cause: string | null) => string;
  /** chance that a list holds an item because of what is wrong, and from the background */
  readonly causedChance: (question: string, item: string) => number;
  readonly groundChance: (question: string, item: string) => number;
  readonly chanceOf: (question: string, item: string) => number;
}

/** People slip: an answer that no table names comes now and then. */
const SLIP = 0.008;

export function signsOf(tables: RuleSet, causes: readonly string[], random: Random): Signs {
  const { frequencies } = tables.head;
  const question = (id: string): Question => {
    const found = tables.questions[id];
    if (!found) throw new Error(`no question ${id}`);
    return found;
  };
  const read = (table: Question, cause: string, answer: string): number => {
    const word = table.table[cause]?.[answer];
    return word ? frequencies[word] : 0;
  };
  const ground = (table: Question, answer: string): number => {
    const word = table.background[answer];
    return word ? frequencies[word] : SLIP;
  };
  // Where nothing is wrong the table may hold a row of its own.
  const speaking = causes.length > 0 ? causes : ['nothing-wrong'];
  const causedChance = (id: string, item: string) =>
    1 - speaking.reduce((p, cause) => p * (1 - read(question(id), cause, item)), 1);
  const groundChance = (id: string, item: string) => ground(question(id), item);
  const chanceOf = (id: string, item: string) =>
    1 - (1 - groundChance(id, item)) * (1 - causedChance(id, item));
  return {
    causedChance,
    groundChance,
    chanceOf,
    worst: (id) => {
      const table = question(id);
      const answers = table.answers.slice(1);
      const shown = [
        (a: string) => ground(table, a),
        ...speaking.map((c) => (a: string) => read(table, c, a)),
      ].map((chance) => {
        const total = answers.reduce((sum, a) => sum + chance(a), 0);
        const nothing = Math.max(0.02, 1 - total);
        return random.weighted([
          ['', nothing] as const,
          ...answers.map((a) => [a, chance(a)] as const),
        ]);
      });
      const at = Math.max(...shown.map((answer) => table.answers.indexOf(answer)), 0);
      return table.answers[at] ?? '';
    },
    oneOf: (id, cause) => {
      const table = question(id);
      const row = cause !== null && table.table[cause] ? cause : null;
      const weight = (a: string) => (row === null ? ground(table, a) : read(table, row, a)) || SLIP;
      return random.weighted(table.answers.map((a) => [a, weight(a)] as const));
    },
  };
}
