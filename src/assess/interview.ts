import type { Answer, Audience } from '../../shared/case/answer.ts';
import { factsOf } from '../../shared/case/facts.ts';
import { diagnose } from '../../shared/diagnosis/diagnose.ts';
import { judge } from '../../shared/diagnosis/judge.ts';
import type { Condition, RuleSet } from '../../shared/ruleset/schema.ts';
import type { Words } from '../../shared/ruleset/words.ts';
import type { Step } from './cure.ts';
import { TODAY } from './plants.ts';
import { type Asked, answer } from './player.ts';
import type { World } from './world.ts';

/** How the questions are chosen: by the tool, or everything there is to ask. */
export type Asking = 'next' | 'all';

/** One played case. */
export interface Interview {
  readonly answers: readonly Answer[];
  readonly asked: readonly string[];
  readonly probabilities: ReadonlyMap<string, number>;
  readonly plan: readonly Step[];
  /** cause → question → weight of its answer, natural log of the factor on the odds */
  readonly reasons: ReadonlyMap<string, readonly { finding: string; weight: number }[]>;
  /** milliseconds of processor time from an answer to the next question */
  readonly times: readonly number[];
}

/** No interview is longer. */
const MOST_QUESTIONS = 40;

export function play(
  world: World,
  rules: RuleSet,
  words: Words,
  audience: Audience,
  asking: Asking,
): Interview {
  const answers: Answer[] = [];
  const asked: string[] = [];
  const times: number[] = [];
  const tell = (question: Asked) => {
    asked.push(question.question);
    answers.push({ question: question.question, value: answer(world, question, audience) });
  };
  const think = () => {
    const from = process.cpuUsage();
    const result = diagnose(
      { plant: world.told, answers, today: TODAY, audience },
      rules,
      words,
      TODAY,
    );
    const { user, system } = process.cpuUsage(from);
    times.push((user + system) / 1000);
    return result;
  };
  if (asking === 'all') for (const question of everyQuestion(world, rules, answers)) tell(question);
  let result = think();
  while (asking === 'next' && result.next && asked.length < MOST_QUESTIONS) {
    tell(result.next);
    result = think();
  }
  return {
    answers,
    asked,
    times,
    probabilities: new Map(result.causes.map(({ id, probability }) => [id, probability])),
    plan: result.plan,
    reasons: new Map(result.causes.map(({ id, reasons }) => [id, reasons])),
  };
}

/** What a table of chances makes of the answers: the same exact enumeration, another rule set. */
export function judgedBy(
  tables: RuleSet,
  world: World,
  answers: readonly Answer[],
): ReadonlyMap<string, number> {
  return judge(factsOf(world.told, answers, tables, { given: TODAY, system: TODAY }), tables)
    .probabilities;
}

/** Every question that applies, readings in three tap states; conditions are looked at as the answers come. */
function* everyQuestion(
  { told }: World,
  rules: RuleSet,
  answers: readonly Answer[],
): Generator<Asked> {
  const gauges = told.line.flatMap((p) => (p.kind === 'gauge' ? [p.id] : []));
  const ids = [
    ...rules.head.order,
    ...Object.keys(rules.questions).filter((id) => !rules.head.order.includes(id)),
  ];
  for (const question of ids) {
    if (!rules.questions[question]?.when.every((c) => holds(c, told, answers))) continue;
    if (question !== 'readings') yield { question, ask: null };
    else
      for (const taps of ['closed', { open: 1 }, { open: 2 }] as const)
        yield { question, ask: { taps, gauges } };
  }
}

function holds(condition: Condition, told: World['told'], answers: readonly Answer[]): boolean {
  const { has, gauges, answered } = condition;
  if (
    has &&
    !told.line.some((p) =>
      has.some((place) => place === p.kind || (p.kind === 'filter' && place === p.medium)),
    )
  )
    return false;
  if (gauges && told.line.filter((p) => p.kind === 'gauge').length < gauges.atLeast) return false;
  if (!answered) return true;
  const given = answers.find(({ question }) => question === answered.question)?.value;
  return [given].flat().some((item) => typeof item === 'string' && answered.oneOf.includes(item));
}
