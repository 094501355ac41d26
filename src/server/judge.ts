import type { Answer } from '../../shared/case/answer.ts';
import type { Priority } from '../store/tables.ts';

/** What the server hands to the diagnosis. `ruleSet` is a version, e.g. "2026-12-01". */
export interface CaseInput {
  readonly plant?: unknown;
  readonly answers: readonly Answer[];
  readonly audience: string;
  readonly language: string;
  readonly ruleSet: string;
  readonly today?: string | undefined;
}

/** The part of a result the server itself looks at; the whole of it goes to the client unchanged. */
export interface View {
  readonly ruleSet: string;
  readonly today: string;
  readonly causes: readonly {
    readonly id: string;
    readonly probability: number;
    readonly overdue?: boolean;
  }[];
  readonly next: { readonly question: string } | null;
  readonly plan: readonly { readonly job: string }[];
  readonly dispatch: { readonly decision: string; readonly priority: Priority };
  readonly stopped: unknown;
}

/**
 * The diagnosis as the server knows it: pure, and handed in. An InputError names the place in the case
 * ("plant.line[2].curve", "answers[3].value").
 */
export interface Judge {
  /** versions there are, oldest first; new cases take the last */
  readonly ruleSets: readonly string[];
  /** Throws an InputError when something in the case cannot be used; quick, for it is asked while the case is held. */
  validate(input: CaseInput): void;
  /** May take its time, and may run elsewhere. */
  computeView(input: CaseInput): View | Promise<View>;
}
