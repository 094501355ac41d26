import type { Answer } from '../../../shared/case/answer.ts';
import { factsOf } from '../../../shared/case/facts.ts';
import { diagnose } from '../../../shared/diagnosis/diagnose.ts';
import { judge } from '../../../shared/diagnosis/judge.ts';
import type { Result } from '../../../shared/diagnosis/result.ts';
import { worldsOf } from '../../../shared/diagnosis/worlds.ts';
import type { Plant } from '../../../shared/plant/schema.ts';
import type { RuleSet } from '../../../shared/ruleset/schema.ts';
import type { Words } from '../../../shared/ruleset/words.ts';
import { type Branch, branchesOf } from './branches.ts';

/** Where an interview may stand: what was answered, what the engine then finds and asks. */
export interface TreeNode {
  readonly answers: readonly Answer[];
  /** the answers to the last question that lead here: one, or several that lead to the very same */
  readonly given: readonly Answer[];
  /** share of the interviews of its sheet that come here, by the engine's own predictions */
  readonly chance: number;
  /** questions with several likely answers since the sheet began: the column it stands in */
  readonly depth: number;
  readonly result: Result;
  children: readonly TreeNode[];
}

export interface TreeWanted {
  /** leaves at the most: rows on a sheet */
  readonly rows: number;
  /** questions with several likely answers after another at the most: columns on a sheet */
  readonly columns: number;
}

/** An answer rarer than this, among those to one question or among all of a sheet, is left out. */
const RARE_HERE = 0.06;
const RARE_ON_SHEET = 0.006;
/** No branch is followed over more answers. */
const MOST_ANSWERS = 16;
/** What people ask for more rarely than this has no sheet of its own. */
const RARE_SHEET = 0.02;

/**
 * The interview walked with the engine itself, a sheet for each thing that people ask about: the answers along every
 * branch are judged, and what is asked next is what stands there. Likely branches first, as many as the paper holds; a
 * branch ends where nothing more is worth asking.
 */
export function interviewSheets(
  plant: Plant,
  rules: RuleSet,
  words: Words,
  { rows, columns }: TreeWanted,
): TreeNode[] {
  const day = rules.head.version;
  const at = (answers: readonly Answer[], chance: number, depth: number): TreeNode => ({
    answers,
    given: answers.slice(-1),
    chance,
    depth,
    result: diagnose({ plant, answers, today: day }, rules, words, day),
    children: [],
  });
  return firstAnswers(at([], 1, 0)).map((answers) => grown(at(answers, 1, 0)));

  /** Past what is asked first whatever is answered, to the answers of the first question that leads different ways. */
  function firstAnswers(node: TreeNode): (readonly Answer[])[] {
    const branches = branchesAt(node).filter(({ chance }) => chance >= RARE_SHEET);
    const [only, ...others] = branches;
    if (!only) return [node.answers];
    if (others.length === 0) return firstAnswers(at(answered(node, only), 1, 0));
    return branches.map((branch) => answered(node, branch));
  }

  function grown(root: TreeNode): TreeNode {
    const open = [root];
    let leaves = 1;
    while (open.length > 0) {
      open.sort((a, b) => b.chance - a.chance);
      const node = open.shift();
      if (!node?.result.next || node.answers.length >= MOST_ANSWERS) continue;
      const likely = branchesAt(node)
        .map(({ value, chance }) => ({ value, chance: chance * node.chance, share: chance }))
        .filter(({ share, chance }) => share >= RARE_HERE && chance >= RARE_ON_SHEET);
      // one likely answer goes on in the same column
      const depth = node.depth + (likely.length > 1 || node === root ? 1 : 0);
      if (likely.length === 0 || leaves - 1 + likely.length > rows || depth > columns) continue;
      const children = likely.map((branch) => at(answered(node, branch), branch.chance, depth));
      node.children = children;
      leaves += likely.length - 1;
      open.push(...children);
    }
    return root;
  }

  /** Answers to what is asked here, likeliest first, their chances adding up to one. */
  function branchesAt(node: TreeNode): Branch[] {
    if (!node.result.next) return [];
    const facts = factsOf(plant, node.answers, rules, { given: day, system: day });
    const judgement = judge(facts, rules);
    const all = branchesOf(node.result.next, judgement, worldsOf(judgement));
    const total = all.reduce((sum, { chance }) => sum + chance, 0);
    return all
      .map(({ value, chance }) => ({ value, chance: total > 0 ? chance / total : 0 }))
      .sort((a, b) => b.chance - a.chance);
  }
}

const answered = ({ answers, result }: TreeNode, { value }: Branch): Answer[] => [
  ...answers,
  { question: result.next?.question ?? '', value },
];

/** The ends of the branches, from top to bottom. */
export function leavesOf(node: TreeNode): TreeNode[] {
  return node.children.length === 0 ? [node] : node.children.flatMap(leavesOf);
}

/** Share of a sheet's interviews that come to an end on it: nothing more is worth asking there. */
export const settledShare = (root: TreeNode): number =>
  leavesOf(root)
    .filter(({ result }) => result.next === null)
    .reduce((sum, { chance }) => sum + chance, 0);
