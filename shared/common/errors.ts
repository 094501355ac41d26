/**
 * The one error family for bad input (files, API, forms, rule sets).
 * `where` names the place the way the reader wrote it ("line[3].clean.flowLpm", "causes/hydraulic.yaml:41"),
 * `message` says what is wrong and the way out. Every edge turns it into one line or a problem document.
 */
export class InputError extends Error {
  override readonly name = 'InputError';
  readonly where: string;

  constructor(where: string, message: string) {
    super(message);
    this.where = where;
  }
}
