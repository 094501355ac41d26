import {
  type Document,
  isAlias,
  isMap,
  isScalar,
  isSeq,
  LineCounter,
  type Node,
  type Pair,
  parseDocument,
  type Scalar,
  visit,
  type YAMLMap,
} from 'yaml';
import type { Finding } from './finding.ts';

/** One YAML file, read: its plain value, what is wrong with its YAML, and the line where a path stands. */
export interface Source {
  readonly file: string;
  readonly value: unknown;
  readonly findings: readonly Finding[];
  lineOf(path: readonly PropertyKey[]): number;
}

/** Tables, words and every check read the same files one after another; a rule set has some eighty. */
const MOST_KEPT = 200;
const LONGEST_KEPT = 100_000;
const kept = new Map<string, Source>();

/**
 * Reads one YAML 1.2 file. Keys that stand twice are findings, not silently the last one; so are anchors and aliases.
 * The same text is read once.
 */
export function readSource(file: string, text: string): Source {
  const key = `${file}\n${text}`;
  const known = kept.get(key);
  if (known) return known;
  const source = parsed(file, text);
  if (text.length > LONGEST_KEPT) return source;
  const [oldest] = kept.keys();
  if (kept.size >= MOST_KEPT && oldest !== undefined) kept.delete(oldest);
  kept.set(key, source);
  return source;
}

function parsed(file: string, text: string): Source {
  const lines = new LineCounter();
  // keys that stand twice are looked for below: the library compares every key with every other
  const options = { lineCounter: lines, uniqueKeys: false, logLevel: 'error' } as const;
  const document = parseDocument(text, options);
  const lineAt = (offset: number | undefined) =>
    offset === undefined ? 1 : Math.max(1, lines.linePos(offset).line);
  const found = (line: number, message: string): Finding => ({ file, line, message, mend: MEND });
  const findings = document.errors.map((error) =>
    found(error.linePos?.[0].line ?? 1, plainly(error.message)),
  );
  const { contents } = document;
  if (contents && !isMap(contents) && !isEmpty(contents))
    findings.push(
      found(1, `holds entries by name, not ${isSeq(contents) ? 'a list' : 'a single value'}`),
    );
  if (findings.length === 0)
    findings.push(
      ...oddities(document).map(({ offset, message }) => found(lineAt(offset), message)),
    );
  const pairOf = pairsByKey();
  return {
    file,
    value: findings.length > 0 ? undefined : document.toJS(),
    findings,
    lineOf: (path) => lineAt(offsetOf(document.contents, path, pairOf)),
  };
}

const isEmpty = (node: Node): boolean => isScalar(node) && node.value === null;

/** The names in a table; none of anything else. */
export function keysOf(value: unknown): string[] {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
    ? Object.keys(value)
    : [];
}

const MEND =
  'see the YAML rules in docs/rules.md: two spaces a level, one colon and a space after a key';

interface Oddity {
  readonly offset: number | undefined;
  readonly message: string;
}

/** Good YAML that has no place in a table. */
function oddities(document: Document): Oddity[] {
  const odd: Oddity[] = [];
  visit(document, {
    Alias: (_, { range }) => void odd.push({ offset: range?.[0], message: NO_ALIAS }),
    Map(_, map) {
      const keys = new Set<string>();
      for (const { key } of map.items) {
        if (isAlias(key)) continue; // told above
        const offset = (key as Node | null)?.range?.[0];
        if (!isScalar(key)) {
          odd.push({ offset, message: 'a key is a word, not a list or a table' });
          continue;
        }
        const name = String(key.value);
        if (keys.has(name)) odd.push({ offset, message: `the key "${name}" stands twice` });
        keys.add(name);
      }
    },
  });
  return odd;
}

const NO_ALIAS = 'an alias (*) repeats what stands elsewhere; write it out';

type PairOf = (map: YAMLMap, key: string) => Pair | undefined;

/** Finds entries by key, each table gone through once however many places are asked for. */
function pairsByKey(): PairOf {
  const known = new Map<YAMLMap, Map<string, Pair>>();
  return (map, key) => {
    let pairs = known.get(map);
    if (!pairs) {
      const named = map.items.filter(({ key }) => isScalar(key));
      pairs = new Map(named.map((pair) => [String((pair.key as Scalar).value), pair]));
      known.set(map, pairs);
    }
    return pairs.get(key);
  };
}

/** The offset of the deepest step of `path` that is there: a key for maps, the item itself for lists. */
function offsetOf(
  root: Node | null,
  path: readonly PropertyKey[],
  pairOf: PairOf,
): number | undefined {
  let node: unknown = root;
  let offset = root?.range?.[0];
  for (const step of path) {
    if (isMap(node)) {
      const pair = pairOf(node, String(step));
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

/** The library's words, without the place, which findings tell themselves. */
const plainly = (message: string): string =>
  /call stack/.test(message)
    ? 'is nested too deep to follow'
    : (message.split(/ at line |\n/)[0] ?? message);
