import { named } from '../common/named.ts';
import type { Finding } from '../ruleset/finding.ts';
import type { Question } from '../ruleset/schema.ts';
import type { Files } from '../ruleset/tables.ts';
import { opening } from './hazards.ts';
import { type PlaceOfWork, readWork } from './read.ts';
import type { StepTable, WorkRules } from './schema.ts';
import { loadWorkWords, type WorkWords } from './words.ts';

type Section = 'jobs' | 'blocks' | 'branches';

interface Placed {
  readonly step: StepTable;
  readonly section: Section;
  readonly id: string;
  readonly path: readonly PropertyKey[];
}

type Questions = Readonly<Record<string, Question>>;

/** Kinds of question that a figure read at a step answers. */
const pressures: readonly (Question['kind'] | undefined)[] = [
  'pressure',
  'pressure-loss',
  'precharge',
];

/** What can be seen wrong in job sheets without playing them; the search (prove.ts) is for sheets that pass this. */
export function findingsOfWork(
  files: Files,
  languages: readonly string[],
  questions: Questions,
): Finding[] {
  const { work, placed, findings } = readWork(files);
  if (findings.length > 0) return [...findings];
  const steps = allSteps(work);
  return [
    ...uses(work, placed),
    ...steps.flatMap((each) => wrongIn(each, work, questions, placed)),
    ...languages.flatMap((language) => {
      const words = loadWorkWords(files, language);
      return [
        ...steps.flatMap((each) => unsaid(each, words, language, placed)),
        ...unnamed(work, words, language, placed),
      ];
    }),
  ];
}

function allSteps(work: WorkRules): Placed[] {
  const from = (
    section: Section,
    id: string,
    list: readonly object[],
    head: readonly PropertyKey[],
  ) =>
    list.flatMap((item, i): Placed[] =>
      'use' in item ? [] : [{ step: item as StepTable, section, id, path: [...head, i] }],
    );
  return [
    ...Object.entries(work.jobs).flatMap(([id, job]) => from('jobs', id, job.steps, ['steps'])),
    ...Object.entries(work.branches).flatMap(([id, branch]) =>
      from('branches', id, branch.steps, ['steps']),
    ),
    ...Object.entries(work.blocks).flatMap(([id, block]) => from('blocks', id, block, [])),
  ];
}

/** Blocks that are used must be there, and a block uses no other. */
function uses(work: WorkRules, placed: PlaceOfWork): Finding[] {
  const lists = [
    ...Object.entries(work.jobs).map(([id, { steps }]) => ['jobs', id, steps] as const),
    ...Object.entries(work.branches).map(([id, { steps }]) => ['branches', id, steps] as const),
  ];
  const missing = lists.flatMap(([section, id, steps]) =>
    steps.flatMap((item, i): Finding[] => {
      if (!('use' in item) || named(work.blocks, item.use)) return [];
      const mend = `use one of ${Object.keys(work.blocks).join(', ')}`;
      return [
        {
          ...placed(section, id, ['steps', i]),
          message: `${id}: there is no block "${item.use}"`,
          mend,
        },
      ];
    }),
  );
  const nested = Object.entries(work.blocks).flatMap(([id, block]) =>
    block.flatMap((item, i): Finding[] =>
      'use' in item
        ? [
            {
              ...placed('blocks', id, [i]),
              message: `block ${id} uses another block`,
              mend: 'write its steps out',
            },
          ]
        : [],
    ),
  );
  return [...missing, ...nested];
}

function wrongIn(
  { step, section, id, path }: Placed,
  work: WorkRules,
  questions: Questions,
  placed: PlaceOfWork,
): Finding[] {
  const found = (message: string, mend: string): Finding => ({
    ...placed(section, id, path),
    message: `${id} › ${step.id}: ${message}`,
    mend,
  });
  const outcomes = [step, ...Object.values(step.answers)];
  const conditions = [
    ...step.needs,
    ...(step.if ? [step.if] : []),
    ...outcomes.flatMap(({ makes, loses }) => [...makes, ...loses]),
  ];
  const branches = Object.values(step.answers).flatMap(({ branch }) => branch ?? []);
  const opens = outcomes.flatMap(({ does }) => does).find((act) => opening.includes(act));
  return [
    ...conditions
      .filter((each) => !named(work.conditions, each))
      .map((each) => found(`there is no condition "${each}"`, 'write it in work/conditions.yaml')),
    ...branches
      .filter((each) => !named(work.branches, each))
      .map((each) => found(`there is no branch "${each}"`, 'write it in work/branches.yaml')),
    ...outcomes
      .flatMap(({ leadsTo }) => leadsTo ?? [])
      .filter((each) => !named(work.jobs, each))
      .map((each) => found(`there is no job "${each}" to lead to`, 'name a job that has a sheet')),
    ...step.sources
      .filter((each) => !named(work.sources, each))
      .map((each) => found(`there is no source "${each}"`, 'write it in work/sources.yaml')),
    ...(step.question !== undefined && !named(questions, step.question)
      ? [found(`there is no question "${step.question}" to answer`, 'write it in questions/')]
      : []),
    ...(step.input === 'value' && !pressures.includes(questions[step.question ?? '']?.kind)
      ? [
          found(
            'has a figure typed in that answers nothing',
            `name under question: one of kind ${pressures.join(', ')}`,
          ),
        ]
      : []),
    ...(opens && !step.caution
      ? [
          found(
            `opens something (${opens}) without a caution`,
            'set caution: true and write what can happen',
          ),
        ]
      : []),
  ];
}

/** Words of a step: its line, its caution, every answer. */
function unsaid(
  { step, section, id, path }: Placed,
  words: WorkWords,
  language: string,
  placed: PlaceOfWork,
): Finding[] {
  const name = step.words ?? step.id;
  const said = words.steps[name];
  const found = (what: string, under = 'steps'): Finding => ({
    ...placed(section, id, path),
    message: `${id} › ${step.id}: no words in "${language}" for ${what}`,
    mend: `write it under ${under} in words/${language}/work/`,
  });
  if (!said) return [found(`step ${name}`)];
  return [
    ...(step.caution && !said.caution ? [found('its caution')] : []),
    ...Object.keys(step.answers)
      .filter((answer) => !said.answers[answer])
      .map((answer) => found(`answer ${answer}`)),
    ...(step.drawing && !words.drawings[step.drawing]
      ? [found(`drawing ${step.drawing}`, 'drawings')]
      : []),
    ...[...step.tools, ...step.parts]
      .filter((tool) => !words.tools[tool])
      .map((tool) => found(`"${tool}"`, 'tools')),
  ];
}

function unnamed(
  work: WorkRules,
  words: WorkWords,
  language: string,
  placed: PlaceOfWork,
): Finding[] {
  return Object.keys(work.conditions)
    .filter((id) => !words.conditions[id])
    .map((id) => ({
      ...placed('conditions', id),
      message: `condition ${id}: no words in "${language}"`,
      mend: `write it in words/${language}/work/names.yaml`,
    }));
}
