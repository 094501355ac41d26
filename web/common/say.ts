/** The words of the screens by key, as built from the rule set. */
export type ScreenWords = Readonly<Record<string, string>>;
export type Holes = Readonly<Record<string, string | number>>;

/** Says the text of a key with its holes filled. A key without words shows itself, so that it is seen and mended. */
export type Say = (key: string, holes?: Holes) => string;

export function sayWith(words: ScreenWords): Say {
  return (key, holes = {}) =>
    (words[key] ?? key).replace(/\{(\w+)\}/g, (hole, name: string) => String(holes[name] ?? hole));
}
