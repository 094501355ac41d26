import { named } from '../common/named.ts';
import type { Check } from './check.ts';
import type { Finding } from './finding.ts';
import { causeIds, finding, outsideTables, unknownIds, unknownInConditions } from './references.ts';
import type { Question, Signs } from './schema.ts';

const answerKinds: readonly Question['kind'][] = ['list', 'choice'];

/** Rows and the background speak of causes and answers that are there. */
const tableHolds: Check = (tables) => {
  const known = [...causeIds(tables.ruleSet), ...outsideTables];
  return each(tables.ruleSet.questions, (id, question) => {
    const path = ['questions', id, 'table'];
    const rows = Object.keys(question.table).map((cause) => ({
      id: cause,
      path: [...path, cause],
    }));
    const answers = Object.entries(question.table).flatMap(([cause, row]) =>
      Object.keys(row).map((answer) => ({ id: answer, path: [...path, cause, answer] })),
    );
    const background = Object.keys(question.background).map((answer) => ({
      id: answer,
      path: ['questions', id, 'background', answer],
    }));
    return [
      ...unknownIds(tables, rows, known, 'cause'),
      ...unknownIds(tables, [...answers, ...background], question.answers, `answer of ${id}`),
    ];
  });
};

/** A list or a choice has answers; no answer stands twice. */
const answersHold: Check = (tables) =>
  each(tables.ruleSet.questions, (id, question) => {
    const path = ['questions', id, 'answers'];
    const twice = question.answers.flatMap((answer, i) =>
      question.answers.indexOf(answer) < i
        ? [finding(tables, [...path, i], `answer "${answer}" stands twice`, 'keep one')]
        : [],
    );
    const none =
      answerKinds.includes(question.kind) && question.answers.length === 0
        ? [finding(tables, ['questions', id], `${id} has no answers`, 'list them under "answers"')]
        : [];
    return [...none, ...twice];
  });

/** A question that is evidence by table has a table; one that is solved or no evidence has none to contradict it. */
const combineFitsTable: Check = (tables) =>
  each(tables.ruleSet.questions, (id, question) => {
    const rows = Object.keys(question.table).length;
    const byTable = ['any', 'worst', 'one of'].includes(question.combine);
    if (byTable && rows === 0) {
      return [
        finding(
          tables,
          ['questions', id],
          `${id} has an empty table`,
          'add rows, or say combine: none',
        ),
      ];
    }
    if (!byTable && rows > 0) {
      const mend = 'take the table out, or choose any, worst or one of';
      const message = `${id} is combined "${question.combine}", so its table is never read`;
      return [finding(tables, ['questions', id, 'table'], message, mend)];
    }
    return [];
  });

/** Where only one answer can be given, a row's words do not add up to more than the whole. */
const rowsFit: Check = (tables) => {
  const { frequencies } = tables.ruleSet.head;
  const sum = (row: Signs) =>
    Object.values(row).reduce((total, word) => total + frequencies[word], 0);
  return each(tables.ruleSet.questions, (id, question) =>
    question.combine !== 'worst' && question.combine !== 'one of'
      ? []
      : [
          ...Object.entries(question.table).map(([cause, row]) => ({
            row,
            path: ['table', cause],
          })),
          { row: question.background, path: ['background'] },
        ]
          .filter(({ row }) => sum(row) > 1.02)
          .map(({ row, path }) =>
            finding(
              tables,
              ['questions', id, ...path],
              `only one answer can be given, but the words of this row add up to ${sum(row).toFixed(2)}`,
              'make some of them rarer; the rest goes to the first answer',
            ),
          ),
  );
};

/** Conditions and job sheets speak of things that are there. */
const referencesHold: Check = (tables) =>
  each(tables.ruleSet.questions, (id, question) => {
    const conditions = unknownInConditions(tables, question.when, ['questions', id, 'when']);
    if (question.job === undefined) return conditions;
    const job = named(tables.ruleSet.jobs, question.job);
    const path = ['questions', id, 'job'];
    const known = Object.keys(tables.ruleSet.jobs);
    if (!job)
      return [...conditions, ...unknownIds(tables, [{ id: question.job, path }], known, 'job')];
    return job.answers !== undefined
      ? conditions
      : [
          ...conditions,
          finding(
            tables,
            path,
            `job ${question.job} answers no question`,
            `say "answers: ${id}" at the job`,
          ),
        ];
  });

/** Bands end in answers that are there and leave no figure without one side. */
const bandsHold: Check = (tables) =>
  each(tables.ruleSet.questions, (id, question) =>
    Object.entries(question.bands ?? {}).flatMap(([analyte, bands]) =>
      unknownIds(
        tables,
        bands.map((band, i) => ({ id: band.answer, path: ['questions', id, 'bands', analyte, i] })),
        question.answers,
        `answer of ${id}`,
      ),
    ),
  );

function each(
  questions: Readonly<Record<string, Question>>,
  check: (id: string, question: Question) => Finding[],
): Finding[] {
  return Object.entries(questions).flatMap(([id, question]) => check(id, question));
}

export const questionChecks: readonly Check[] = [
  tableHolds,
  answersHold,
  combineFitsTable,
  rowsFit,
  referencesHold,
  bandsHold,
];
