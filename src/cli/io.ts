/** What a command needs of the world: texts in, texts out. Tests hand in their own. */
export interface Io {
  /** Text of a file; `-` is standard input. Throws InputError naming the file where it cannot be read. */
  readText(path: string): Promise<string>;
  out(text: string): void;
  err(text: string): void;
}

/** Says a phrase of the rule set's words file by its key, its {holes} filled. */
export type Say = (key: string, holes?: Readonly<Record<string, string | number>>) => string;

/** The argument parser takes a lone `-` for an option without a name: this word stands for it while it parses. */
const STDIN_WORD = ':standard-input:';

/** Arguments as the parser can take them. */
export function forParser(args: readonly string[]): string[] {
  return args.map((arg) => (arg === '-' ? STDIN_WORD : arg));
}

/** A file argument as the person wrote it. */
export function asWritten(file: string): string {
  return file === STDIN_WORD ? '-' : file;
}
