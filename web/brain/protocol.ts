import type { Answer, Audience } from '../../shared/case/answer.ts';
import type { Actor, PlannedJob, RankedCause, Result } from '../../shared/diagnosis/result.ts';
import type { Field, Filled } from '../../shared/interview/form.ts';
import type { Mode } from '../../shared/interview/machine.ts';
import type { Option } from '../../shared/interview/match.ts';
import type { Reply } from '../../shared/interview/reply.ts';
import type { Step } from '../../shared/interview/step.ts';
import type { Plant } from '../../shared/plant/schema.ts';
import type { Units } from '../../shared/ruleset/figures.ts';
import type { Picture as RecordPicture } from '../../shared/upkeep/pictures/frame.ts';
import type { DueReport } from '../../shared/upkeep/report.ts';
import type { Proof } from '../../shared/work/proving.ts';
import type { WorkRecord } from '../../shared/work/record.ts';
import type { WorkEvent } from '../../shared/work/state.ts';
import type { WorkView } from '../../shared/work/view.ts';
import type { CleanPoint } from '../drawing/clean-band.ts';
import type { Picture } from '../drawing/picture.ts';

/** What the page asks of the worker that holds the rule set, and what comes back. Everything is plain data. */

export interface CaseNow {
  readonly plant: Plant;
  readonly answers: readonly Answer[];
  readonly audience: Audience;
  /** the calendar day here and now */
  readonly day: string;
  readonly units: Units;
}

/** One question as a person meets it. */
export interface Card {
  readonly step: Step;
  readonly key: string;
  readonly short: string;
  readonly text: string;
  readonly why: string;
  readonly showMe: string | null;
  readonly fields: readonly Field[];
  /** the job sheet under which it is answered, when something is opened, drained or switched */
  readonly job: { readonly id: string; readonly name: string } | null;
  /** the value given before, for changing it */
  readonly given: unknown;
  /** the value that says “I do not know” */
  readonly unknown: unknown;
}

export interface Earlier {
  readonly step: Step;
  readonly key: string;
  readonly label: string;
  readonly text: string;
}

export interface ShownCause extends RankedCause {
  readonly name: string;
  readonly says: string;
  /** only past its time: told, but not the trouble that is sought */
  readonly overdue: boolean;
}

export interface ShownJob extends PlannedJob {
  readonly name: string;
  readonly causeName: string;
  /** for what is past its life, whatever else is found */
  readonly overdue: boolean;
  /** names of what it takes on the van, should somebody go for it */
  readonly van: readonly string[];
}

/** Whether a caller is away from the plant, and the answer that says the opposite. */
export interface Caller {
  readonly step: Step;
  readonly isAway: boolean;
  readonly otherwise: string;
}

export interface Looked {
  readonly result: Result;
  readonly mode: Mode;
  readonly plant: Plant;
  readonly card: Card | null;
  readonly earlier: readonly Earlier[];
  /** what is wrong was told, since any work that was done */
  readonly isTold: boolean;
  readonly causes: readonly ShownCause[];
  /** the most likely cause of the trouble; null when stopped */
  readonly likely: ShownCause | null;
  readonly plan: readonly ShownJob[];
  readonly van: readonly string[];
  /** the questions whose answers put the case before others */
  readonly hurry: readonly string[];
  /** whom to call at each danger sign told */
  readonly whom: readonly string[];
  readonly picture: Picture;
  /** where an agent's caller is; null for everybody else */
  readonly caller: Caller | null;
  /** what else can be answered now, asked or not */
  readonly others: readonly { readonly step: Step; readonly key: string; readonly label: string }[];
}

export interface Wrong {
  readonly where: string;
  readonly message: string;
}
export type Checked<T> = { readonly ok: T } | { readonly wrong: Wrong };

/** A job under way: what it is, on which parts, and what has happened at it on the first of them. */
export interface WorkNow {
  readonly job: string;
  /** one after the other; empty where the job finds its own place */
  readonly parts: readonly string[];
  /** what it was to end when it was done on another part, where the plan no longer names it */
  readonly cause: string | null;
  readonly events: readonly WorkEvent[];
  /** the time now; a long break puts some conditions in doubt */
  readonly at: string;
}

/** A job that must come before another. */
export interface FirstJob {
  readonly name: string;
  readonly by: Actor;
}

export interface ShownWork {
  readonly view: WorkView;
  /** conditions as the machine holds them, for whoever goes on elsewhere to say what is still so */
  readonly made: readonly string[];
  /** when each that stands was made or last looked at */
  readonly madeAt: Readonly<Record<string, string | null>>;
  readonly name: string;
  readonly part: string | null;
  /** what to type in at this step: readings, a bucket test, or one pressure */
  readonly entry: Card | null;
  /** what may not be drunk now, and by whom */
  readonly advice: readonly string[];
  /** why the last event was refused */
  readonly refused: string | null | undefined;
  readonly dangers: readonly Option[];
  /** how it ended: what it adds to the case, whether it worked, what is left */
  readonly end: {
    readonly answers: readonly Answer[];
    readonly proof: Proof | null;
    readonly left: readonly { readonly name: string; readonly probability: number }[];
    readonly calls: readonly string[];
    readonly notes: WorkRecord['notes'];
    /** what the job was to end */
    readonly cause: string | null;
    /** names of causes of another kind that this job was not for */
    readonly untouched: readonly string[];
    /** names of what stands and is to stay until it goes on */
    readonly leftAs: readonly string[];
    /** parts the same job is still to be done on; the first is offered at once */
    readonly nextParts: readonly string[];
    /** where it was handed over: the job that goes on from here, or must come first */
    readonly leadsTo: {
      readonly job: string;
      readonly name: string;
      readonly by: string;
      readonly part: string | null;
    } | null;
  } | null;
}

/** A plant's readings and work over time, as `gaugewalk due` takes them. */
export interface PlantRecord {
  readonly history: readonly unknown[];
  readonly done: readonly {
    readonly at: string;
    readonly job: string;
    readonly parts?: readonly string[];
  }[];
}

export interface ShownDue {
  readonly due: DueReport['due'];
  readonly remarks: DueReport['remarks'];
  readonly buy: readonly {
    readonly by: string;
    readonly part: string;
    readonly items: readonly string[];
  }[];
  /** resistance of each stretch, pressure along the line then and now, the pump's curve */
  readonly pictures: readonly RecordPicture[];
}

export interface NormalReading {
  readonly gauge: string;
  readonly closed: CleanPoint;
  readonly open: CleanPoint;
}

/** Every question the worker answers: its name, what goes in, what comes out. */
export interface Brain {
  start(language: string): Promise<void>;
  look(now: CaseNow): Promise<Checked<Looked>>;
  card(now: CaseNow, step: Step): Promise<Card>;
  /** many cards at once, for a screen with several entries */
  cards(now: CaseNow, steps: readonly Step[]): Promise<readonly Card[]>;
  /** the answer's value from what was filled in */
  fill(
    now: CaseNow,
    step: Step,
    filled: Readonly<Record<string, Filled>>,
  ): Promise<Checked<unknown>>;
  /** judges ahead what is being filled in, so that the next question stands ready; nothing comes back */
  think(now: CaseNow, step: Step, filled: Readonly<Record<string, Filled>>): Promise<void>;
  /** reads a typed line as the answer to a field */
  typed(now: CaseNow, step: Step, field: string, line: string): Promise<Reply>;
  /** when what falls due, from readings over time and work done */
  due(now: CaseNow, record: PlantRecord): Promise<Checked<ShownDue>>;
  /** those dates as an iCalendar file */
  calendar(now: CaseNow, record: PlantRecord): Promise<Checked<string>>;
  /** what each gauge shows when nothing is wrong */
  normal(plant: Plant): Promise<readonly NormalReading[]>;
  work(now: CaseNow, work: WorkNow): Promise<Checked<ShownWork>>;
  /** what must be done on this plant before a job can be begun there; null: nothing, or not known without a network */
  comesFirst(
    plant: Plant,
    audience: Audience,
    job: string,
    part?: string,
  ): Promise<FirstJob | null>;
  /** cause → its name, for lists of cases */
  causeNames(): Promise<Readonly<Record<string, string>>>;
  checkPlant(plant: unknown, units: Units): Promise<Checked<Picture>>;
}
