/** Something wrong in a rule set: where it stands, what is wrong and how to mend it. `line` counts from 1. */
export interface Finding {
  readonly file: string;
  readonly line: number;
  readonly message: string;
  readonly mend: string;
  /** worth a look, yet it may be meant so: it does not make the rule set unfit */
  readonly advice?: true;
}

/** "causes/hydraulic.yaml:41" */
export const placeOf = (finding: Finding): string => `${finding.file}:${finding.line}`;

/** Findings in reading order, so that the same rule set always gives the same list. */
export function inReadingOrder(findings: readonly Finding[]): readonly Finding[] {
  return [...findings].sort(
    (a, b) =>
      Number(a.file > b.file) - Number(a.file < b.file) ||
      a.line - b.line ||
      Number(a.message > b.message) - Number(a.message < b.message),
  );
}
