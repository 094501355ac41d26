import type { Check } from './check.ts';
import type { Finding } from './finding.ts';
import { finding, unknownAnswers, unknownIds } from './references.ts';
import { frequencyWords } from './schema.ts';

/** The set order names questions that are there, each once. */
const orderHolds: Check = (tables) => {
  const { head, questions } = tables.ruleSet;
  const ids = head.order.map((id, i) => ({ id, path: ['head', 'order', i] }));
  const twice = ids
    .filter(({ id }, i) => head.order.indexOf(id) < i)
    .map(({ id, path }) =>
      finding(tables, path, `"${id}" stands twice in the order`, 'keep the first'),
    );
  return [...unknownIds(tables, ids, Object.keys(questions), 'question'), ...twice];
};

/** What is looked at first names an answer of the order and questions that are there. */
const lookFirstHolds: Check = (tables) =>
  tables.ruleSet.head.lookFirst.flatMap(({ told, ask }, i) => {
    const path = ['head', 'lookFirst', i];
    const late = tables.ruleSet.head.order.includes(told.question)
      ? []
      : [
          finding(
            tables,
            [...path, 'told'],
            `"${told.question}" is not in the order, so nothing follows it`,
            'name a question of the order',
          ),
        ];
    const asked = ask.map((id, j) => ({ id, path: [...path, 'ask', j] }));
    return [
      ...unknownAnswers(tables, told, [...path, 'told']),
      ...late,
      ...unknownIds(tables, asked, Object.keys(tables.ruleSet.questions), 'question'),
    ];
  });

/** What tells of a new trouble is a question that is there. */
const newTroubleHolds: Check = (tables) => {
  const { head, questions } = tables.ruleSet;
  if (head.newTrouble === undefined) return [];
  const named = [{ id: head.newTrouble, path: ['head', 'newTrouble'] }];
  return unknownIds(tables, named, Object.keys(questions), 'question');
};

/** Where the caller is, is told by answers that are there. */
const callerHolds: Check = (tables) => {
  const { caller } = tables.ruleSet.head;
  if (!caller) return [];
  const { question, there, away } = caller;
  return unknownAnswers(tables, { question, oneOf: [there, away] }, ['head', 'caller']);
};

/** Groups that say the same, replaced symptoms, what makes a case urgent or a whole round name answers that are there. */
const groupsHold: Check = (tables) => {
  const { head } = tables.ruleSet;
  const groups = head.sameSaying.flatMap((group, i) =>
    group.answers.flatMap((answer, j) =>
      unknownAnswers(tables, answer, ['head', 'sameSaying', i, 'answers', j]),
    ),
  );
  const exact = head.sameSaying.flatMap((group, i) =>
    group.full === undefined
      ? []
      : unknownIds(
          tables,
          [{ id: group.full, path: ['head', 'sameSaying', i, 'full'] }],
          group.answers.map((answer) => answer.question),
          'question in this group',
        ),
  );
  const replaced = head.replaces.flatMap((entry, i) =>
    unknownAnswers(tables, entry, ['head', 'replaces', i]),
  );
  const priorities = (['urgent', 'soon'] as const).flatMap((priority) =>
    head[priority].flatMap((answer, i) => unknownAnswers(tables, answer, ['head', priority, i])),
  );
  const round = head.wholeRound
    ? unknownAnswers(tables, head.wholeRound, ['head', 'wholeRound'])
    : [];
  return [...groups, ...exact, ...replaced, ...priorities, ...round];
};

/** The frequency words fall from "almost always" to "hardly ever". */
const frequenciesFall: Check = (tables) => {
  const { frequencies } = tables.ruleSet.head;
  const findings: Finding[] = [];
  frequencyWords.forEach((word, i) => {
    const above = frequencyWords[i - 1];
    if (above === undefined || frequencies[word] < frequencies[above]) return;
    const message = `"${word}" must be less often than "${above}"`;
    findings.push(
      finding(tables, ['head', 'frequencies', word], message, 'put the figures in falling order'),
    );
  });
  return findings;
};

export const headChecks: readonly Check[] = [
  orderHolds,
  lookFirstHolds,
  newTroubleHolds,
  callerHolds,
  groupsHold,
  frequenciesFall,
];
