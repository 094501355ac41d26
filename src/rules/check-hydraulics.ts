import { group } from 'd3-array';
import { ONE_TAP } from '../../shared/diagnosis/answered.ts';
import { houseCurve } from '../../shared/diagnosis/flow-grid.ts';
import { flowChances } from '../../shared/diagnosis/unread-state.ts';
import type { World } from '../../shared/diagnosis/worlds.ts';
import type { Finding } from '../../shared/ruleset/finding.ts';
import { finding } from '../../shared/ruleset/references.ts';
import type { FrequencyWord, RuleSet } from '../../shared/ruleset/schema.ts';
import type { Tables } from '../../shared/ruleset/tables.ts';
import { everyPart } from './every-part.ts';
import { type Singles, singleCauses } from './single-causes.ts';

/** At less than half its clean flow a tap is weak to anybody; at nine tenths nobody notices (common practice). */
const WEAK_SHARE = 0.5;
const SAME_SHARE = 0.9;
/** The line says nearly always, the table says rarely: between them lies what people overlook or call otherwise. */
const NEARLY_ALWAYS = 0.85;
const RARELY = 0.3;
/** Heard of the pump this much more often than in a sound plant, it is a sign that people speak of. */
const SHOWS = 0.5;

/**
 * Frequency words that the solved line contradicts: a cause that takes most of the flow, or makes the pump behave so,
 * while its row says that this is rarely complained of; or a row that says it is, under a cause that changes no flow.
 * Which answers speak of flow and pump is read from `replaces` and `sameSaying`.
 */
export function findingsOfHydraulics(tables: Tables): Finding[] {
  const { ruleSet } = tables;
  const found = new Map<string, Finding>();
  for (const plant of everyPart) {
    const singles = singleCauses(plant, ruleSet);
    for (const [cause, list] of group(singles.list, (single) => single.cause)) {
      if (ruleSet.causes[cause]?.block !== 'hydraulic') continue;
      const over = (chance: (world: World) => number) =>
        list.reduce((sum, { weight, world }) => sum + weight * chance(world), 0);
      const shares = list.map(({ weight, world }) => ({
        weight,
        share: flowShare(singles, world),
      }));
      // more taps open than one pump can feed is no matter of one tap's flow
      const byDemand = list.some(({ world }) =>
        world.effects.some(({ change }) => change.demandTimes !== undefined),
      );
      const weak = shares.reduce((n, s) => n + (s.share < WEAK_SHARE ? s.weight : 0), 0);
      const same = shares.reduce((n, s) => n + (s.share > SAME_SHARE ? s.weight : 0), 0);
      for (const wrong of [
        ...aboutFlow(tables, cause, weak, byDemand ? 0 : same),
        ...aboutPump(tables, cause, (question, answers) =>
          over((world) => pumpExcess(singles, question, answers, world)),
        ),
      ])
        found.set(`${wrong.file}:${wrong.line} ${wrong.advice ?? ''}`, wrong);
    }
  }
  return [...found.values()];
}

/** Flow of one ordinary tap under a cause, over the flow with nothing wrong. */
function flowShare({ judgement, nothing }: Singles, world: World): number {
  const { model } = judgement;
  const house = houseCurve(model.line, model.curves, ONE_TAP, model.assumed);
  const mean = ({ effects }: World) =>
    flowChances({ curves: model.curves, house }, model.sourceWith(effects), effects, 1).reduce(
      (sum, chance, j, all) =>
        sum + (chance * (model.curves.lpm[j] ?? 0)) / all.reduce((a, b) => a + b, 0),
      0,
    );
  return mean(world) / Math.max(1e-6, mean(nothing));
}

/** How much likelier than with nothing wrong the likeliest of these answers about the pump is. */
function pumpExcess(singles: Singles, question: string, answers: readonly string[], world: World) {
  const outcomes = singles.outcomes({ question, taps: null }, [world, singles.nothing]);
  const all = singles.judgement.rules.questions[question]?.answers ?? [];
  const excess = all.flatMap((answer, i) =>
    answers.includes(answer) ? [(outcomes[i]?.[0] ?? 0) - (outcomes[i]?.[1] ?? 0)] : [],
  );
  return Math.max(0, ...excess);
}

/** Answers of a table question that say the water is weak or gone, by the rule set's own head. */
function flowAnswers({ head, questions }: RuleSet): Map<string, Set<string>> {
  const answers = new Map<string, Set<string>>();
  const add = (question: string, oneOf: readonly string[]) => {
    if (questions[question]?.combine !== 'any') return;
    const known = answers.get(question) ?? new Set();
    for (const each of oneOf) known.add(each);
    answers.set(question, known);
  };
  for (const { reading, question, oneOf } of head.replaces)
    if (reading === 'flow') add(question, oneOf);
  for (const [question, known] of answers) {
    // what is said in the same breath as a pump that gives nothing is no flow at all
    for (const { answers: group } of head.sameSaying)
      if (group.some((each) => questions[each.question]?.pump === 'running'))
        for (const each of group) if (each.question === question) add(question, each.oneOf);
    if (known.size === 0) answers.delete(question);
  }
  return answers;
}

function aboutFlow(tables: Tables, cause: string, weak: number, same: number): Finding[] {
  const { ruleSet } = tables;
  return [...flowAnswers(ruleSet)].flatMap(([question, answers]) => {
    const row = ruleSet.questions[question]?.table[cause] ?? {};
    const words = [...answers].map((answer) => row[answer] ?? 'hardly ever');
    const said = 1 - words.reduce((none, word) => none * (1 - frequency(ruleSet, word)), 1);
    const path = ['questions', question, 'table', cause];
    const named = [...answers].join(', ');
    if (weak >= NEARLY_ALWAYS && said < RARELY)
      return [
        finding(
          tables,
          path,
          `${cause} takes more than half the flow in ${percent(weak)} of its severities, yet ${question} says ${named} ${percent(said)} of the time`,
          'make one of these answers "usually" or more, or let its changes be slighter',
        ),
      ];
    const flowOnly = [...answers].filter((answer) =>
      ruleSet.head.replaces.some(
        (each) =>
          each.reading === 'flow' && each.question === question && each.oneOf.includes(answer),
      ),
    );
    return flowOnly.flatMap((answer) =>
      same >= NEARLY_ALWAYS && frequency(ruleSet, row[answer] ?? 'hardly ever') >= 0.7
        ? [
            finding(
              tables,
              [...path, answer],
              `${cause} leaves the flow as it is in ${percent(same)} of its severities, yet ${question} says ${answer} "${row[answer]}"`,
              'make the word rarer, or say in its changes what it does to the line',
            ),
          ]
        : [],
    );
  });
}

/** Groups of `sameSaying` that join what the pump does (solved) to what people say (by table). */
function aboutPump(
  tables: Tables,
  cause: string,
  chance: (question: string, answers: readonly string[]) => number,
): Finding[] {
  const { ruleSet } = tables;
  return ruleSet.head.sameSaying.flatMap(({ answers, repeats }) => {
    const solved = answers.find(
      ({ question }) => ruleSet.questions[question]?.combine === 'solved',
    );
    if (!solved) return [];
    return answers.flatMap(({ question, oneOf }): Finding[] => {
      const table = ruleSet.questions[question];
      if (!table || table.combine === 'solved') return [];
      const behaves = chance(solved.question, solved.oneOf);
      // who has no water at all does not speak of the pump's pace
      const row = Object.values(table.table[cause] ?? {});
      if (row.some((word) => frequency(ruleSet, word) >= 0.7)) return [];
      const said = oneOf.reduce(
        (sum, answer) => sum + frequency(ruleSet, table.table[cause]?.[answer] ?? 'hardly ever'),
        0,
      );
      if (behaves * repeats < SHOWS || said > 0.02) return [];
      return [
        {
          ...finding(
            tables,
            ['questions', question, 'table', cause],
            `${cause}: ${solved.question} is ${solved.oneOf.join(' or ')} in ${percent(behaves)} of its severities, yet ${question} hardly ever says ${oneOf.join(' or ')}`,
            `write how often it is said, or see whether the changes of ${cause} are meant so`,
          ),
          advice: true,
        },
      ];
    });
  });
}

const frequency = ({ head }: RuleSet, word: FrequencyWord) => head.frequencies[word];
const percent = (share: number) => `${Math.round(100 * share)} %`;
