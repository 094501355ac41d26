/**
 * The one error family for bad input (files, API, forms, rule sets).
 * `where` names the place the way the reader wrote it ("line[3].clean.flowLpm", "causes/hydraulic.yaml:41"),
 * `message` says what is wrong and the way out. Every edge turns it into one line or a problem document.
 */
export class InputError extends Error {
  override readonly name = 'InputError';
  readonly where: string;
  /** for what can be typed into a form: the same to be said in the person's own language and units */
  readonly fault: Fault | undefined;

  constructor(where: string, message: string, fault?: Fault) {
    super(message);
    this.where = where;
    this.fault = fault;
  }
}

/** A phrase of the words, `wrong-…`, and what fills its holes. */
export interface Fault {
  readonly id: FaultId;
  readonly holes?: Readonly<Record<string, string | number | { readonly bar: number }>>;
}

export const faultIds = [
  'a-number',
  'whole-number',
  'a-day',
  'missing',
  'above-zero',
  'at-least',
  'at-most',
  'below-zero',
  'below-vacuum',
  'above-vacuum',
  'none-named',
  'later-date',
  'switch-halves',
  'flows-rise',
  'heads-fall',
  'one-point',
  'id-twice',
  'second-of-kind',
  'behind-house',
  'tank-first',
  'suction-first',
  'bypass-around',
  'bypasses-meet',
] as const;
export type FaultId = (typeof faultIds)[number];
