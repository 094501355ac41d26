import type { Check } from './check.ts';
import type { Finding } from './finding.ts';
import {
  causeIds,
  finding,
  kindsOfWork,
  outsideTables,
  unknownAnswers,
  unknownIds,
  unknownInConditions,
} from './references.ts';

/** Jobs cure causes that are there (leaving it alone suits "nothing-wrong"), or answer a question that names them. */
const jobsHold: Check = (tables) => {
  const { jobs, questions } = tables.ruleSet;
  return Object.entries(jobs).flatMap(([id, job]) => {
    const conditions = unknownInConditions(tables, job.when, ['jobs', id, 'when']);
    const unknownCauses = unknownIds(
      tables,
      Object.keys(job.cures).map((cause) => ({ id: cause, path: ['jobs', id, 'cures', cause] })),
      [...causeIds(tables.ruleSet), ...outsideTables],
      'cause',
    );
    const cures = [...conditions, ...unknownCauses];
    if (job.answers === undefined) return cures;
    const path = ['jobs', id, 'answers'];
    const question = questions[job.answers];
    if (!question) {
      return [
        ...cures,
        ...unknownIds(tables, [{ id: job.answers, path }], Object.keys(questions), 'question'),
      ];
    }
    if (question.job === id) return cures;
    const message = `question ${job.answers} does not say that job ${id} answers it`;
    return [...cures, finding(tables, path, message, `say "job: ${id}" at the question`)];
  });
};

/** What a job counts as afterwards is a kind of work that somebody could also report. */
const worksHold: Check = (tables) =>
  Object.entries(tables.ruleSet.jobs).flatMap(([id, job]) =>
    job.countsAs === undefined
      ? []
      : unknownIds(
          tables,
          [{ id: job.countsAs, path: ['jobs', id, 'countsAs'] }],
          kindsOfWork(tables.ruleSet),
          'kind of work',
        ),
  );

/** One job is left when nothing else is worth trying. */
const oneLastResort: Check = (tables) => {
  const [first, ...others] = Object.entries(tables.ruleSet.jobs).filter(
    ([, job]) => job.lastResort,
  );
  if (!first) {
    const path = ['jobs', Object.keys(tables.ruleSet.jobs)[0] ?? ''];
    return [
      finding(tables, path, 'no job is the last resort', 'say "lastResort: true" at one job'),
    ];
  }
  return others.map(([id]) =>
    finding(
      tables,
      ['jobs', id, 'lastResort'],
      `${id} is a second last resort beside ${first[0]}`,
      'keep it at one job',
    ),
  );
};

/** What stays at home for some plants is on the job's van for the others. */
const vanHolds: Check = (tables) =>
  Object.entries(tables.ruleSet.jobs).flatMap(([id, { van, vanOnlyFor = {} }]) =>
    unknownIds(
      tables,
      Object.keys(vanOnlyFor).map((item) => ({
        id: item,
        path: ['jobs', id, 'vanOnlyFor', item],
      })),
      van,
      'item of this van',
    ),
  );

/** Cautions are raised by answers, causes and jobs that are there. */
const cautionsHold: Check = (tables) => {
  const { cautions, jobs } = tables.ruleSet;
  return Object.entries(cautions).flatMap(([id, caution]) =>
    caution.when.flatMap((when, i): Finding[] => {
      const path = ['cautions', id, 'when', i];
      if ('question' in when) return unknownAnswers(tables, when, path);
      if ('all' in when) return unknownInConditions(tables, when.all, [...path, 'all']);
      if ('cause' in when) {
        return unknownIds(
          tables,
          [{ id: when.cause, path: [...path, 'cause'] }],
          causeIds(tables.ruleSet),
          'cause',
        );
      }
      if ('job' in when) {
        return unknownIds(
          tables,
          [{ id: when.job, path: [...path, 'job'] }],
          Object.keys(jobs),
          'job',
        );
      }
      return [];
    }),
  );
};

/** Danger signs are answers of one question, all of them; their cautions are there. */
const dangersHold: Check = (tables) => {
  const { dangers, cautions, questions } = tables.ruleSet;
  const signs = Object.keys(dangers);
  const askedBy = Object.entries(questions).find(([, question]) =>
    question.answers.some((answer) => signs.includes(answer)),
  );
  const cautionRefs = Object.entries(dangers).flatMap(([id, danger]) =>
    danger.cautions.map((caution, i) => ({ id: caution, path: ['dangers', id, 'cautions', i] })),
  );
  const findings = unknownIds(tables, cautionRefs, Object.keys(cautions), 'caution');
  if (!askedBy) return findings;
  const [id, question] = askedBy;
  const signRefs = signs.map((sign) => ({ id: sign, path: ['dangers', sign] }));
  const deaf = question.answers.flatMap((answer, i) =>
    signs.includes(answer)
      ? []
      : [
          finding(
            tables,
            ['questions', id, 'answers', i],
            `danger sign "${answer}" stops nothing`,
            'say in dangers.yaml whom to call',
          ),
        ],
  );
  return [
    ...findings,
    ...unknownIds(tables, signRefs, question.answers, `answer of ${id}`),
    ...deaf,
  ];
};

export const actionChecks: readonly Check[] = [
  jobsHold,
  worksHold,
  vanHolds,
  oneLastResort,
  cautionsHold,
  dangersHold,
];
