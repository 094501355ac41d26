import { group } from 'd3-array';
import type { Ask } from '../../shared/diagnosis/predict.ts';
import type { Finding } from '../../shared/ruleset/finding.ts';
import { finding } from '../../shared/ruleset/references.ts';
import type { Tables } from '../../shared/ruleset/tables.ts';
import { everyPart } from './every-part.ts';
import { apart, asksOf, type Single, type Singles, singleCauses } from './single-causes.ts';

/** Answers of two causes that differ by less than this in every question are the same for all practice. */
const SAME = 0.1;

/** Causes that no answer can tell apart, and questions that tell no two causes apart, on plants with every part. */
export function findingsOfEvidence(tables: Tables): Finding[] {
  const { ruleSet } = tables;
  const pairs = new Set<string>();
  const told = new Set<string>();
  const matters = new Set<string>();
  // what a table says is cheaper to look up than what the line does
  const asks = asksOf(ruleSet).sort((a, b) => solved(a) - solved(b));
  function solved({ question }: Ask): number {
    return Number(ruleSet.questions[question]?.combine === 'solved');
  }
  for (const plant of everyPart) {
    const singles = singleCauses(plant, ruleSet);
    const byCause = group(singles.list, (single) => single.cause);
    for (const { question } of mattering(singles, asks, byCause)) matters.add(question);
    const causes = [...byCause];
    causes.forEach(([a, ofA], i) => {
      for (const [b, ofB] of causes.slice(i + 1)) {
        const pair = `${a} ${b}`;
        pairs.add(pair);
        if (told.has(pair)) continue;
        if (asks.some((ask) => tellsApart(ask, singles, ofA, ofB))) told.add(pair);
      }
    });
  }
  return [
    ...[...pairs].filter((pair) => !told.has(pair)).map((pair) => indistinct(tables, pair)),
    ...Object.entries(ruleSet.questions)
      .filter(([id, { combine }]) => combine !== 'none' && !matters.has(id))
      .map(([id]) =>
        finding(
          tables,
          ['questions', id],
          `no answer to ${id} tells any two causes apart`,
          'give its table rows that differ, or take the question out',
        ),
      ),
    ...neverAsked(tables),
  ];
}

/** Whether some answer differs clearly between each severity of one cause and the most alike one of the other. */
function tellsApart(
  ask: Ask,
  singles: Singles,
  a: readonly Single[],
  b: readonly Single[],
): boolean {
  const worlds = [...a, ...b].map(({ world }) => world);
  const outcomes = singles.outcomes(ask, worlds);
  const oneWay = (from: readonly Single[], at: number, to: readonly Single[], toAt: number) =>
    from.reduce((sum, { weight }, i) => {
      const nearest = Math.min(...to.map((_, j) => apart(outcomes, at + i, toAt + j)));
      return sum + weight * nearest;
    }, 0);
  return oneWay(a, 0, b, a.length) >= SAME || oneWay(b, a.length, a, 0) >= SAME;
}

/** Questions with some answer that differs clearly between two causes, or between a cause and nothing wrong. */
function mattering(
  singles: Singles,
  asks: readonly Ask[],
  byCause: ReadonlyMap<string, readonly Single[]>,
) {
  const middle = [...byCause.values()].flatMap((list) => list[list.length >> 1]?.world ?? []);
  const worlds = [singles.nothing, ...middle];
  return asks.filter((ask) => {
    const outcomes = singles.outcomes(ask, worlds);
    return worlds.some((_, i) => worlds.some((_, j) => j > i && apart(outcomes, i, j) >= SAME));
  });
}

function indistinct(tables: Tables, pair: string): Finding {
  const [a = '', b = ''] = pair.split(' ');
  const message = `no answer can tell ${b} from ${a}`;
  const mend = 'give one of them a sign the other has not, or make them one cause';
  return finding(tables, ['causes', b], message, mend);
}

/** A question that wants an answer and forbids the same one can never be asked. */
function neverAsked(tables: Tables): Finding[] {
  return Object.entries(tables.ruleSet.questions).flatMap(([id, { when }]) =>
    when.flatMap(({ answered }, i) => {
      if (!answered) return [];
      const forbidden = when.flatMap(({ notAnswered }) =>
        notAnswered?.question === answered.question ? notAnswered.oneOf : [],
      );
      if (!answered.oneOf.every((answer) => forbidden.includes(answer))) return [];
      const message = `${id} can never be asked: it wants and forbids the same answer of ${answered.question}`;
      return [finding(tables, ['questions', id, 'when', i], message, 'take one of the two out')];
    }),
  );
}
