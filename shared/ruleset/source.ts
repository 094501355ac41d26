import { isMap, isPair, isScalar, isSeq, LineCounter, type Node, parseDocument } from 'yaml';
import type { Finding } from './finding.ts';

/** One YAML file, read: its plain value, what is wrong with its YAML, and the line where a path stands. */
export interface Source {
  readonly file: string;
  readonly value: unknown;
  readonly findings: readonly Finding[];
  lineOf(path: readonly PropertyKey[]): number;
}

/** Reads one YAML 1.2 file. Keys that stand twice are findings, not silently the last one. */
export function readSource(file: string, text: string): Source {
  const lines = new LineCounter();
  const document = parseDocument(text, { lineCounter: lines, uniqueKeys: true });
  const findings = document.errors.map((error) => ({
    file,
    line: error.linePos?.[0].line ?? 1,
    message: firstLine(error.message),
    mend: 'see the YAML rules in docs/rules.md: two spaces a level, one colon and a space after a key',
  }));
  const lineAt = (offset: number | undefined) =>
    offset === undefined ? 1 : Math.max(1, lines.linePos(offset).line);
  return {
    file,
    value: findings.length > 0 ? undefined : document.toJS(),
    findings,
    lineOf: (path) => lineAt(offsetOf(document.contents, path)),
  };
}

/** The offset of the deepest step of `path` that is there: a key for maps, the item itself for lists. */
function offsetOf(root: Node | null, path: readonly PropertyKey[]): number | undefined {
  let node: unknown = root;
  let offset = root?.range?.[0];
  for (const step of path) {
    if (isMap(node)) {
      const pair = node.items.find(
        (item) => isPair(item) && isScalar(item.key) && String(item.key.value) === String(step),
      );
      if (!pair || !isScalar(pair.key)) return offset;
      offset = pair.key.range?.[0] ?? offset;
      node = pair.value;
    } else if (isSeq(node)) {
      node = node.items[Number(step)];
      const range = (node as Node | undefined)?.range;
      if (!range) return offset;
      offset = range[0];
    } else return offset;
  }
  return offset;
}

const firstLine = (message: string): string => message.split(/ at line |\n/)[0] ?? message;
