import type { TreeNode } from './tree.ts';

/** The tree with the least likely of its last questions taken off, one after another, until it fits. */
export function cutToFit(tree: TreeNode, fits: (tree: TreeNode) => boolean): TreeNode {
  if (fits(tree)) return tree;
  const [rarest] = lastQuestions(tree).sort((a, b) => a.chance - b.chance);
  return rarest ? cutToFit(endedAt(tree, rarest), fits) : tree;
}

/** Nodes whose every answer ends a branch; never the first question of the sheet. */
function lastQuestions(node: TreeNode): TreeNode[] {
  const deeper = node.children.flatMap(lastQuestions);
  const isLast = node.depth > 0 && node.children.length > 0 && deeper.length === 0;
  return isLast ? [node] : deeper;
}

const endedAt = (tree: TreeNode, node: TreeNode): TreeNode => ({
  ...tree,
  children: tree === node ? [] : tree.children.map((child) => endedAt(child, node)),
});

/**
 * Answers to one question that lead to the very same, told as one: `reads` gives what a branch says from there on, its
 * answer left out.
 */
export function alikeAsOne(node: TreeNode, reads: (node: TreeNode) => string): TreeNode {
  const groups = new Map<string, TreeNode[]>();
  for (const child of node.children) {
    const key = reads(child);
    groups.set(key, [...(groups.get(key) ?? []), child]);
  }
  const children = [...groups.values()].flatMap(([first, ...others]) =>
    first
      ? {
          ...alikeAsOne(first, reads),
          chance: [first, ...others].reduce((sum, { chance }) => sum + chance, 0),
          given: [first, ...others].flatMap(({ given }) => given),
        }
      : [],
  );
  return { ...node, children: children.sort((a, b) => b.chance - a.chance) };
}
