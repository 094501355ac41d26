import type { DrinkingHazard } from '../ruleset/hazard.ts';
import type { PlantPressures } from './holes.ts';
import type { Scales } from './scales.ts';
import type { WorkRules } from './schema.ts';
import type { Sheet, SheetStep } from './sheet.ts';

/** What happens at a job, in order. The state is rebuilt from these alone. */
export type WorkEvent = When &
  (
    | Omit<Tick, keyof When>
    /** something no longer holds: the pump was switched on, the valve was opened */
    | { readonly lost: string }
    /** the last step ticked, which was not done or went otherwise */
    | { readonly takeBack: string }
    | { readonly pauseMinutes: number }
    /** who goes on at another device has looked: these they found as they were said to be */
    | { readonly stillSo: readonly string[] }
    | { readonly danger: readonly string[] }
  );

interface When {
  readonly at?: string;
}

/** A step done, with what was answered, read or noted. */
export interface Tick extends When {
  readonly step: string;
  readonly answer?: string;
  readonly input?: unknown;
}

/** Where we are in the sheet itself, or in a branch that was gone aside to: steps before `at` are done. */
export interface Frame {
  readonly branch: string | null;
  readonly at: number;
  /** a branch that mends does only what makes these */
  readonly mending?: readonly string[];
  /** when it was left off at this step: a wait counts from then, also when something is checked again meanwhile */
  readonly since?: string;
}

/**
 * Why an event was not taken: something must stand first, the step is not the one to do now, it needs one of its answers,
 * its wait has not gone by, a gauge was read past its scale, the figure typed is more than any gauge shows or not what the
 * plant is to be set to, or there is no tick to go back on.
 */
export type Refusal =
  | 'not-yet'
  | 'not-now'
  | 'answer'
  | 'too-early'
  | 'past-scale'
  | 'too-high'
  | 'figure'
  | 'no-way-back';

export interface WorkState {
  /** frames[0] is the sheet; the last is the one being worked on */
  readonly frames: readonly Frame[];
  /** conditions made by steps; those made of others are computed */
  readonly made: readonly string[];
  /** lost against the plan, and not made again yet */
  readonly struck: readonly {
    readonly condition: string;
    readonly because: 'break' | 'reported' | 'taken-back';
  }[];
  /** water-safety advice in force, by hazard */
  readonly advice: readonly DrinkingHazard[];
  readonly ended: 'done' | 'handed-over' | 'stopped' | null;
  readonly danger: readonly string[];
  /** the last event could not be taken, and why */
  readonly refused: {
    readonly step: string;
    readonly why: Refusal;
    /** what it is about: with `not-yet` the conditions that must stand first, with `past-scale` the gauges */
    readonly needs: readonly string[];
  } | null;
  readonly lastAt: string | null;
  /** what was ticked and not taken back, in order */
  readonly ticks: readonly Tick[];
  /** how it stood before the last tick; null where there is none to take back, or something was lost since */
  readonly before: WorkState | null;
}

export function startOf(advice: readonly DrinkingHazard[] = []): WorkState {
  return {
    frames: [{ branch: null, at: 0 }],
    made: [],
    struck: [],
    advice: [...advice],
    ended: null,
    danger: [],
    refused: null,
    lastAt: null,
    ticks: [],
    before: null,
  };
}

export const stepsOf = (sheet: Sheet, frame: Frame): readonly SheetStep[] =>
  frame.branch === null ? sheet.steps : (sheet.branches[frame.branch]?.steps ?? []);

/** The step that is come to now is come to at this time; where nobody knows the time, it stays as it was. */
export const arrived = (frames: WorkState['frames'], at: string | null): WorkState['frames'] =>
  at === null
    ? frames
    : frames.map((frame, i) => (i === frames.length - 1 ? { ...frame, since: at } : frame));

/** Everything a step can make, whichever answer is given. */
export const makesOf = (step: SheetStep): readonly string[] => [
  ...step.makes,
  ...Object.values(step.answers).flatMap((answer) => answer.makes),
];

export interface WorkContext {
  readonly sheet: Sheet;
  readonly conditions: WorkRules['conditions'];
  /** what the plant is set to; left out where a sheet is looked at for a kind of plant */
  readonly pressures?: PlantPressures;
  /** where its gauges end; left out likewise */
  readonly scales?: Scales;
}
