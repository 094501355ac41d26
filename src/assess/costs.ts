import type { Audience } from '../../shared/case/answer.ts';
import type { Actor } from '../../shared/diagnosis/result.ts';

/**
 * What things cost in the virtual world: fixed here and nowhere else, so that no rule set can make itself look cheap.
 * Minutes of work, money for parts, and who does it; typical figures, our own estimate.
 */
export interface JobCost {
  readonly by: Actor;
  readonly minutes: number;
  readonly money: number;
}

/** Minutes that one unit of money stands for. */
export const MINUTES_PER_MONEY = 1.5;
/** Minutes' worth of having somebody come, the waiting and the way included. */
export const VISIT_MINUTES: Record<Actor, number> = {
  householder: 0,
  technician: 180,
  electrician: 210,
  plumber: 210,
  laboratory: 120,
};
/** When the plan is at its end: a technician takes the plant apart until it is found, besides the visit. */
export const SEARCH_MINUTES = 240;

const job = (by: Actor, minutes: number, money: number): JobCost => ({ by, minutes, money });

export const JOB_COSTS: Record<string, JobCost> = {
  'change-sediment': job('householder', 35, 12),
  'change-carbon': job('householder', 40, 30),
  'change-membrane': job('householder', 60, 85),
  'reseat-cartridge': job('householder', 30, 3),
  'leave-until-due': job('householder', 2, 0),
  'change-lamp': job('householder', 35, 80),
  'clean-sleeve': job('householder', 45, 5),
  'set-precharge': job('technician', 40, 0),
  'change-vessel': job('technician', 90, 140),
  'set-switch': job('technician', 30, 0),
  'change-control': job('technician', 60, 100),
  'reset-pump-once': job('householder', 10, 0),
  'restore-power': job('householder', 10, 0),
  'prime-pump': job('technician', 40, 0),
  'change-pump': job('technician', 120, 420),
  'change-check-valve': job('technician', 60, 35),
  'clean-strainer': job('technician', 45, 5),
  'mend-suction-air': job('technician', 70, 20),
  'open-valves': job('householder', 8, 0),
  'clean-outlets': job('householder', 25, 3),
  'bleed-air': job('householder', 15, 0),
  'find-leak': job('plumber', 90, 50),
  'reduce-demand': job('householder', 10, 0),
  'change-gauge': job('technician', 25, 25),
  'flush-line': job('householder', 25, 0),
  'disinfect-tank': job('householder', 90, 12),
  'disinfect-line': job('householder', 110, 12),
  'desludge-tank': job('technician', 180, 60),
  'clean-roof': job('householder', 90, 5),
  'fill-tank': job('householder', 30, 110),
  'raise-ph': job('technician', 90, 130),
  'lab-test': job('laboratory', 30, 90),
  'call-electrician': job('electrician', 60, 60),
};
/** A job of a rule set that is not named here. */
export const OTHER_JOB = job('technician', 60, 50);

const LOOKING: Record<Audience, number> = { householder: 3, agent: 3, technician: 1.5 };
const asked = (householder: number, agent: number, technician: number) => ({
  householder,
  agent,
  technician,
});

/** Minutes of answering a question; what is not named is looked at or said. */
const QUESTION_MINUTES: Record<string, Record<Audience, number>> = {
  danger: asked(0.5, 0.5, 0.2),
  household: asked(0.5, 0.5, 0.2),
  complaint: asked(0.5, 0.5, 0.3),
  onset: asked(0.5, 0.5, 0.3),
  'recent-work': asked(0.5, 0.5, 0.2),
  scope: asked(2, 2, 1),
  smell: asked(1, 1, 0.5),
  taste: asked(1, 1, 0.5),
  readings: asked(5, 6, 2),
  flow: asked(8, 8, 4),
  'shut-off': asked(15, 20, 5),
  'pressure-hold': asked(25, 25, 12),
  'pressure-hold-isolated': asked(25, 25, 12),
  precharge: asked(60, 60, 25),
  'cycle-times': asked(8, 8, 4),
  'suction-vacuum': asked(60, 60, 12),
  'strainer-look': asked(60, 60, 20),
  'empty-housing': asked(40, 45, 20),
  'water-test': asked(60, 60, 40),
  'aerator-compare': asked(8, 8, 5),
};

export const questionMinutes = (question: string, audience: Audience): number =>
  QUESTION_MINUTES[question]?.[audience] ?? LOOKING[audience];
