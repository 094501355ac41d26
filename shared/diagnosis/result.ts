import type { Taps } from '../case/taps.ts';
import type { Assumed } from '../plant/defaults.ts';
import type { actors } from '../ruleset/schema.ts';

/** What `diagnose` gives for one case: the shapes of the contract. */
export interface Result {
  readonly ruleSet: string;
  readonly today: string;
  readonly causes: readonly RankedCause[];
  readonly segments: readonly SegmentReading[];
  readonly next: NextQuestion | null;
  readonly plan: readonly PlannedJob[];
  readonly dispatch: Dispatch;
  readonly stopped: Stopped | null;
  readonly cautions: readonly Told[];
  readonly warnings: readonly Warning[];
  readonly assumed: readonly Assumed[];
  /** what is odd, hard to tell apart, or would change the picture, in words */
  readonly remarks: readonly Told[];
}

export interface RankedCause {
  readonly id: string;
  /** the cause is present */
  readonly probability: number;
  readonly parts?: readonly { readonly id: string; readonly probability: number }[];
  /** merely past its life: present, but not what is looked for */
  readonly overdue?: boolean;
  readonly reasons: readonly Reason[];
}

export interface Reason {
  /** the question answered */
  readonly finding: string;
  /** natural log of the factor on the cause's odds by this answer; positive speaks for it */
  readonly weight: number;
  readonly text: string;
}

export interface SegmentReading {
  readonly from: string;
  readonly to: string;
  readonly parts: readonly string[];
  readonly taps: Taps;
  /** from − to, offset and height taken out */
  readonly dropBar: number;
  /** half-width of a 95 % interval */
  readonly uncertaintyBar: number;
  readonly tooSmall: boolean;
  readonly flowLpm: number | null;
  /** drop over the clean drop at the same flow; null without a flow */
  readonly timesClean: number | null;
  readonly measured: boolean;
}

export interface NextQuestion {
  readonly question: string;
  /** for readings: the tap state and gauges asked for */
  readonly ask: { readonly taps: Taps; readonly gauges: readonly string[] } | null;
  readonly choices: readonly { readonly id: string; readonly label: string }[] | null;
  readonly text: string;
  readonly why: string;
}

export type Actor = (typeof actors)[number];

export interface PlannedJob {
  readonly job: string;
  readonly cause: string;
  /** the one that the cause most likely sits in first: so they are worked on */
  readonly parts: readonly string[];
  readonly by: Actor;
  readonly minutes: number;
  readonly money: number | null;
  /** chance that it ends the trouble, given all before it did not */
  readonly cures: number;
  /** expected cost from here to the cure: minutes, or money where the case gives costs */
  readonly expectedCost: number;
  readonly lookFor: string;
}

export interface Dispatch {
  readonly decision: 'phone' | 'send' | 'stop';
  readonly who: Actor | null;
  readonly van: readonly string[];
  /** chance that one visit is enough; null when nobody is sent */
  readonly oneVisit: number | null;
  readonly priority: 'urgent' | 'soon' | 'normal';
}

export interface Stopped {
  readonly because: readonly string[];
  readonly call: string;
}

export interface Told {
  readonly id: string;
  readonly text: string;
}

export interface Warning extends Told {
  /** how the plant is built, or what was read at its gauges */
  readonly about: 'plant' | 'readings';
}
