/** Where a text stops being JSON, and what would have been right there. */
export interface JsonFault {
  readonly line: number;
  readonly column: number;
  readonly message: string;
}

/**
 * Finds the place at which a text that is not JSON goes wrong (RFC 8259). The engine's own message names it only
 * sometimes, and by counting characters from the start.
 */
export function jsonFault(text: string): JsonFault {
  let at = 0;
  try {
    at = skipSpace(text, valueEnd(text, 0));
    fail(at, 'nothing more belongs after the value');
  } catch (error) {
    if (error instanceof RangeError) return placed(text, 0, 'brackets are nested too deep');
    if (!(error instanceof Fault)) throw error;
    return placed(text, error.at, error.message);
  }
}

class Fault extends Error {
  readonly at: number;
  constructor(at: number, message: string) {
    super(message);
    this.at = at;
  }
}

function fail(at: number, message: string): never {
  throw new Fault(at, message);
}

function placed(text: string, at: number, message: string): JsonFault {
  const before = text.slice(0, at).split('\n');
  const found = at >= text.length ? 'the text ends' : `found ${JSON.stringify(text[at])}`;
  return {
    line: before.length,
    column: (before.at(-1)?.length ?? 0) + 1,
    message: `${message}; ${found} there`,
  };
}

const space = /[ \t\n\r]*/y;
const scalar =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: JSON forbids them inside texts
  /"(?:[^"\\\u0000-\u001f]|\\(?:["\\/bfnrt]|u[\da-fA-F]{4}))*"|-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?|true|false|null/y;

function skipSpace(text: string, at: number): number {
  return end(space, text, at) ?? at;
}

function end(pattern: RegExp, text: string, at: number): number | null {
  pattern.lastIndex = at;
  return pattern.test(text) ? pattern.lastIndex : null;
}

/** The index after the value that starts at or after `start`. */
function valueEnd(text: string, start: number): number {
  const at = skipSpace(text, start);
  if (text[at] === '{') return membersEnd(text, at + 1, '}');
  if (text[at] === '[') return membersEnd(text, at + 1, ']');
  if (text[at] === '"') return stringEnd(text, at);
  return end(scalar, text, at) ?? fail(at, 'a value must stand here');
}

function membersEnd(text: string, start: number, close: '}' | ']'): number {
  let at = skipSpace(text, start);
  if (text[at] === close) return at + 1;
  for (;;) {
    if (close === '}') {
      at = skipSpace(text, at);
      if (text[at] !== '"') fail(at, 'a field name in double quotes must stand here');
      at = skipSpace(text, stringEnd(text, at));
      if (text[at] !== ':') fail(at, 'a colon must stand after a field name');
      at += 1;
    }
    at = skipSpace(text, valueEnd(text, at));
    if (text[at] === close) return at + 1;
    if (text[at] !== ',') fail(at, `a comma or ${close} must stand here`);
    at += 1;
  }
}

function stringEnd(text: string, at: number): number {
  return (
    end(scalar, text, at) ?? fail(at, 'a text in double quotes is not closed, or not well formed')
  );
}
