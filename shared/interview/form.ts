import type { Taps } from '../case/taps.ts';
import type { Plant } from '../plant/schema.ts';
import type { RuleSet } from '../ruleset/schema.ts';
import type { Words } from '../ruleset/words.ts';
import type { Option } from './match.ts';
import type { Step } from './step.ts';
import type { Quantity } from './units.ts';

/**
 * What a person fills in for one question, field by field. `text` is null where the question itself says it all.
 * `may be left out`: "I do not know" leaves only this field open, not the whole question.
 */
export type Field = {
  readonly key: string;
  readonly text: string | null;
  readonly mayBeLeftOut?: true;
  /** asked only when one of these fields was filled in */
  readonly onlyAfter?: readonly string[];
} & (
  | { readonly kind: 'one'; readonly options: readonly Option[]; readonly orFigure?: Quantity }
  /** `mayBeNone`: nothing at all answers it, even where an option says "nothing" */
  | { readonly kind: 'many'; readonly options: readonly Option[]; readonly mayBeNone?: true }
  | { readonly kind: 'figure'; readonly quantity: Quantity; readonly orWords: readonly Option[] }
  | { readonly kind: 'day' }
  /** whatever is to be written down; may stay empty */
  | { readonly kind: 'note' }
);

/** What a field was filled with: an option's id, several, a figure in bar, litres and so on, a day; null when left out. */
export type Filled = string | readonly string[] | number | null;

export interface Form {
  readonly fields: readonly Field[];
  /** the answer's value, as a case holds it */
  valueOf(filled: Readonly<Record<string, Filled>>): unknown;
}

/** Says a phrase of the words, its {holes} filled. */
export type Say = (key: string, holes?: Readonly<Record<string, string | number>>) => string;

/** The fields of one question for this plant, by the question's kind. */
export function formOf(
  step: Step,
  ask: { readonly gauges: readonly string[] } | null,
  plant: Plant,
  rules: RuleSet,
  words: Words,
  say: Say,
): Form {
  const question = rules.questions[step.question];
  if (!question) throw new Error(`no question "${step.question}"`);
  const options = optionsOf(step.question, question.answers, words);
  const figure = (key: string, quantity: Quantity, text: string | null): Field => ({
    ...{ kind: 'figure', key, text, quantity },
    orWords: [],
  });
  const whole = (field: Field): Form => ({
    fields: [field],
    valueOf: (filled) => filled[field.key],
  });
  switch (question.kind) {
    case 'list':
      return whole({ kind: 'many', key: 'value', text: null, options });
    case 'choice':
      return whole({ kind: 'one', key: 'value', text: null, options });
    case 'tank-level':
      return {
        fields: [{ kind: 'one', key: 'value', text: null, options, orFigure: 'metres' }],
        valueOf: ({ value }) => (typeof value === 'number' ? { m: value } : value),
      };
    case 'readings':
      return readingsForm(step.taps ?? 'closed', ask?.gauges ?? [], plant, say);
    case 'flow':
      return {
        fields: [
          figure('litres', 'volume', say('ask-flow-litres')),
          figure('seconds', 'seconds', say('ask-flow-seconds')),
        ],
        valueOf: (filled) => ({ ...filled }),
      };
    case 'pressure':
    case 'vacuum':
      return {
        fields: [figure('bar', 'pressure', null)],
        valueOf: (filled) => ({ ...filled }),
      };
    case 'pressure-loss':
      return {
        fields: [
          figure('lostBar', 'pressure', say('ask-lost-pressure')),
          figure('minutes', 'minutes', say('ask-lost-minutes')),
        ],
        valueOf: (filled) => ({ ...filled }),
      };
    case 'precharge':
      return {
        fields: [
          { kind: 'figure', key: 'bar', text: null, quantity: 'pressure', orWords: options },
        ],
        valueOf: ({ bar }) => (typeof bar === 'number' ? { bar } : bar),
      };
    case 'cycle-times':
      return {
        fields: [
          figure('onS', 'seconds', say('ask-cycle-on')),
          figure('offS', 'seconds', say('ask-cycle-off')),
          {
            kind: 'one',
            key: 'taps',
            text: say('ask-cycle-taps'),
            options: [
              optionOf('open', say('taps-one'), say('said-open')),
              optionOf('closed', say('taps-closed'), say('said-closed')),
            ],
          },
        ],
        valueOf: (filled) => ({ ...filled }),
      };
    case 'hours':
      return whole(figure('value', 'hours', null));
    case 'dates':
      return datesForm(plant, say);
    case 'housing':
      return {
        fields: [
          {
            kind: 'many',
            key: 'removed',
            text: say('ask-removed'),
            options: filtersOf(plant).map(({ id, medium }) =>
              optionOf(id, `${say(`kind-${medium}`)} ${id}`, medium),
            ),
          },
          { kind: 'one', key: 'result', text: say('ask-housing-result'), options },
        ],
        valueOf: (filled) => ({ ...filled }),
      };
    case 'water-test':
      return waterTestForm(say);
  }
}

function readingsForm(taps: Taps, gauges: readonly string[], plant: Plant, say: Say): Form {
  const keyOf = (gauge: string) => `bar ${gauge}`;
  const running = taps !== 'closed' && plant.line.some((part) => part.kind === 'pump');
  const pump: Field = {
    ...{ kind: 'one', key: 'pump', text: say('ask-pump-now'), mayBeLeftOut: true },
    onlyAfter: gauges.map(keyOf),
    options: [
      optionOf('on', say('yes'), say('said-yes')),
      optionOf('off', say('no'), say('said-no')),
    ],
  };
  return {
    fields: [
      ...gauges.map(
        (gauge): Field => ({
          ...{ kind: 'figure', key: keyOf(gauge), text: say('ask-gauge-shows', { gauge }) },
          ...{ quantity: 'pressure', orWords: [], mayBeLeftOut: true },
        }),
      ),
      ...(running ? [pump] : []),
    ],
    valueOf: (filled) => {
      const bar = Object.fromEntries(
        gauges.map((gauge) => [gauge, filled[keyOf(gauge)] ?? 'unknown']),
      );
      const unread = Object.values(bar).every((value) => value === 'unknown');
      return {
        taps,
        bar: unread ? 'unknown' : bar,
        ...(typeof filled.pump === 'string' && { pump: filled.pump }),
      };
    },
  };
}

function datesForm(plant: Plant, say: Say): Form {
  const filters = filtersOf(plant);
  return {
    fields: filters.map(({ id }) => ({
      ...{ kind: 'day', key: id, mayBeLeftOut: true },
      text: say('ask-date', { part: id }),
    })),
    valueOf: knownOnly,
  };
}

function waterTestForm(say: Say): Form {
  const numbers = ['ph', 'turbidityNtu', 'ironMgL', 'copperMgL', 'freeChlorineMgL', 'uvtPercent'];
  return {
    fields: [
      ...numbers.map(
        (key): Field => ({
          ...{ kind: 'figure', key, text: say(`ask-test-${key.toLowerCase()}`) },
          ...{ quantity: 'number', orWords: [], mayBeLeftOut: true },
        }),
      ),
      {
        ...{ kind: 'one', key: 'eColi', text: say('ask-test-ecoli'), mayBeLeftOut: true },
        options: [
          optionOf('present', say('yes'), say('said-yes')),
          optionOf('absent', say('no'), say('said-no')),
        ],
      },
    ],
    valueOf: knownOnly,
  };
}

/** Only what was filled in; with nothing filled in, the answer as a whole is unknown. */
function knownOnly(filled: Readonly<Record<string, Filled>>): unknown {
  const known = Object.entries(filled).filter(([, value]) => value !== null);
  return known.length === 0 ? 'unknown' : Object.fromEntries(known);
}

const filtersOf = (plant: Plant) =>
  plant.line.flatMap((part) =>
    part.kind === 'filter' ? [{ id: part.id, medium: part.medium }] : [],
  );

/** `said`: other ways of saying it, parted by bars as in the words file. */
const optionOf = (id: string, label: string, said: string): Option => ({
  id,
  label,
  alsoSaid: said.split('|').map((one) => one.trim()),
});

/** The answers of a question as they are spoken. */
export function optionsOf(question: string, answers: readonly string[], words: Words): Option[] {
  const spoken = words.questions[question]?.answers ?? {};
  return answers.map((id) => ({
    id,
    label: spoken[id]?.label ?? id,
    alsoSaid: spoken[id]?.alsoSaid ?? [],
  }));
}
