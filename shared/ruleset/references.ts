import { named } from '../common/named.ts';
import type { Finding } from './finding.ts';
import { suggestion } from './nearest.ts';
import type { Condition, RuleSet } from './schema.ts';
import type { Tables } from './tables.ts';

/**
 * Ids that every rule set has without a table of their own: both blocks empty, and something the rule set does not
 * hold. A question's table may have a row for either.
 */
export const outsideTables = ['nothing-wrong', 'not-listed'] as const;

/** A finding at a path of the tables. */
export function finding(
  tables: Tables,
  path: readonly PropertyKey[],
  message: string,
  mend: string,
): Finding {
  return { ...tables.at(path), message, mend };
}

/** A finding for every id that is not among the known ones. `path` leads to the id in the tables. */
export function unknownIds(
  tables: Tables,
  ids: readonly { readonly id: string; readonly path: readonly PropertyKey[] }[],
  known: readonly string[],
  what: string,
): Finding[] {
  return ids
    .filter(({ id }) => !known.includes(id))
    .map(({ id, path }) =>
      finding(
        tables,
        path,
        `there is no ${what} "${id}"`,
        suggestion(id, known, `see docs/rules.md for how to add a ${what}`),
      ),
    );
}

/** Findings for a reference to a question and some of its answers. */
export function unknownAnswers(
  tables: Tables,
  reference: { readonly question: string; readonly oneOf: readonly string[] },
  path: readonly PropertyKey[],
): Finding[] {
  const question = named(tables.ruleSet.questions, reference.question);
  if (!question) {
    const known = Object.keys(tables.ruleSet.questions);
    return unknownIds(
      tables,
      [{ id: reference.question, path: [...path, 'question'] }],
      known,
      'question',
    );
  }
  return unknownIds(
    tables,
    reference.oneOf.map((id, i) => ({ id, path: [...path, 'oneOf', i] })),
    question.answers,
    `answer of ${reference.question}`,
  );
}

/** Findings for the questions and answers that conditions speak of. `path` leads to the list of conditions. */
export const unknownInConditions = (
  tables: Tables,
  conditions: readonly Condition[],
  path: readonly PropertyKey[],
): Finding[] =>
  conditions.flatMap((condition, i) =>
    (['answered', 'notAnswered'] as const).flatMap((key) => {
      const reference = condition[key];
      return reference ? unknownAnswers(tables, reference, [...path, i, key]) : [];
    }),
  );

export const causeIds = (ruleSet: RuleSet): string[] => Object.keys(ruleSet.causes);

/** Kinds of work are the answers of lists that are no evidence themselves: they move the odds of causes. */
export const kindsOfWork = (ruleSet: RuleSet): string[] =>
  Object.values(ruleSet.questions)
    .filter((question) => question.kind === 'list' && question.combine === 'none')
    .flatMap((question) => question.answers);
