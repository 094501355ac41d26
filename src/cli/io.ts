/** What a command needs of the world: texts in, texts out. Tests hand in their own. */
export interface Io {
  /** Text of a file; `-` is standard input. Throws InputError naming the file where it cannot be read. */
  readText(path: string): Promise<string>;
  out(text: string): void;
  err(text: string): void;
}

/** Says a phrase of the rule set's words file by its key, its {holes} filled. */
export type Say = (key: string, holes?: Readonly<Record<string, string | number>>) => string;
