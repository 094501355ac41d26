import type { Answer, Audience } from '../../shared/case/answer.ts';
import type { Plant } from '../../shared/plant/schema.ts';
import type { WorkEntry } from '../../shared/work/log.ts';
import type { Proof } from '../../shared/work/proving.ts';
import type { WorkRecord } from '../../shared/work/record.ts';
import type { WorkEvent } from '../../shared/work/state.ts';
import type { PlantRecord } from '../brain/protocol.ts';

export interface KeptAnswer extends Answer {
  /** the server cannot take it: it counts here only, and those after it go on without it */
  readonly refused?: true;
}

/** A case as this browser keeps it: the plant, the answers, and how far they have reached the server. */
export interface KeptCase {
  readonly key: string;
  readonly plant: Plant;
  readonly answers: readonly KeptAnswer[];
  readonly audience: Audience;
  readonly createdAt: string;
  readonly changedAt: string;
  /** where the server keeps it ("/api/cases/…", "/api/desk/cases/…"); null: only here so far */
  readonly base: string | null;
  /** answers, from the first and without the refused, that the server is known to have */
  readonly sent: number;
  /** never sent: the demo */
  readonly local: boolean;
  /** the server takes nothing more for it: link withdrawn or read-only */
  readonly closed: boolean;
  /** how to get in and whom to call, for who is sent where there is no network; not once the case is closed */
  readonly call?: { readonly access: string | null; readonly callBack: string | null };
  /** what happened at its jobs: as the server has it, then what it has not got yet */
  readonly log?: readonly KeptEntry[];
  /** entries of it that the server is known to have */
  readonly logSent?: number;
  /** entries that the server can never take: they count here only */
  readonly aside?: readonly KeptEntry[];
  /** what this browser is called in it */
  readonly device?: string;
  /** jobs begun under an older client */
  readonly work: readonly KeptWork[];
  /** readings and work from before this case, where there is a record */
  readonly record?: PlantRecord;
  /** jobs that came to an end, for the report */
  readonly done?: readonly DoneWork[];
}

/** How many answers, and events at jobs, the server has not got yet. */
export const waitingOf = ({ answers, sent, log = [], logSent = 0 }: KeptCase): number =>
  answers.length - sent + log.length - logSent;

/** Without how to get in and whom to call; null where none is kept. */
export const withoutCall = ({ call, ...rest }: KeptCase): KeptCase | null => (call ? rest : null);

export interface DoneWork {
  readonly job: string;
  /** as it was called then */
  readonly name: string;
  readonly part: string | null;
  /** what it was to end */
  readonly cause?: string | null;
  readonly at: string;
  /** kept by an older client without it: done */
  readonly ended?: WorkRecord['ended'];
  readonly notes: WorkRecord['notes'];
  /** how the plant was left, in words; kept by an older client without it: nothing told */
  readonly leftAs?: readonly string[];
  readonly proof: Proof | null;
}

/** As the server tells it, with who did it where it may be told and when it came; without either: not there yet. */
export interface KeptEntry extends WorkEntry {
  readonly by?: string | null;
  readonly receivedAt?: string;
}

/** What the server tells of a case's jobs: how many entries there are, and the last of them. */
export interface HeardWork {
  readonly workCount: number;
  readonly work: readonly KeptEntry[];
}

export interface KeptWork {
  readonly job: string;
  readonly parts: readonly string[];
  readonly events: readonly WorkEvent[];
}
