import { replay } from '../../shared/work/apply.ts';
import { nextInOrder } from '../../shared/work/next.ts';
import {
  condition,
  stepAnswer,
  step as stepTable,
  type WorkRules,
} from '../../shared/work/schema.ts';
import type { Sheet, SheetStep } from '../../shared/work/sheet.ts';
import type { WorkContext, WorkEvent } from '../../shared/work/state.ts';
import { plant } from './made-world.ts';

export const conditionsOf = (tables: Record<string, object>): WorkRules['conditions'] =>
  Object.fromEntries(Object.entries(tables).map(([id, table]) => [id, condition.parse(table)]));
export const conditions = conditionsOf({
  told: {},
  locked: { claims: 'pump-dead', checkAgainAfterMinutes: 60 },
  shut: { claims: 'supply-shut', checkAgainAfterMinutes: 60 },
  far: { claims: 'far-shut', checkAgainAfterMinutes: 60 },
  'sign-tap': { lostWith: ['locked', 'shut'], checkAgainAfterMinutes: 60 },
  'sign-bleed': { lostWith: ['locked', 'shut'], checkAgainAfterMinutes: 60 },
  'sign-gauge': { lostWith: ['locked', 'shut'] },
  dry: { claims: 'no-pressure', atLeast: 2, of: ['sign-tap', 'sign-bleed', 'sign-gauge'] },
});

export const stepOf = (given: {
  readonly answers?: object;
  readonly [key: string]: unknown;
}): SheetStep => {
  const answers = Object.entries(given.answers ?? {}).map(
    ([id, answer]) => [id, stepAnswer.parse(answer)] as const,
  );
  const { by, words, ...table } = stepTable.parse({ ...given, answers: {} });
  return {
    ...table,
    answers: Object.fromEntries(answers),
    by: by ?? 'householder',
    words: words ?? table.id,
    origin: { section: 'jobs', id: 'job', path: [] },
  };
};
const features = plant({ secondValve: false, drain: false });

const seen = (by: string) => ({ shows: { by, fact: 'no-pressure' } });
export const steps: SheetStep[] = [
  { id: 'tell', makes: ['told'] },
  { id: 'lock', does: ['lock-main-switch'], makes: ['locked'] },
  { id: 'shut', does: ['shut-supply'], makes: ['shut'] },
  {
    id: 'tap',
    // with the house shut off a dry tap would say nothing
    does: ['open-far', 'open-tap'],
    loses: ['far'],
    answers: {
      dry: { makes: ['sign-tap'], ...seen('tap') },
      runs: { shows: { by: 'tap', fact: 'pressure' }, branch: 'call' },
    },
  },
  {
    id: 'bleed',
    does: ['press-bleed'],
    answers: {
      silent: { makes: ['sign-bleed'], ...seen('bleed') },
      hisses: { shows: { by: 'bleed', fact: 'pressure' }, branch: 'call' },
    },
  },
  { id: 'far', does: ['shut-far'], makes: ['far'] },
  { id: 'open', needs: ['locked', 'shut', 'far', 'dry'], does: ['open-wetted', 'close-wetted'] },
  { id: 'tap-shut', does: ['shut-tap'] },
  {
    id: 'feed',
    loses: ['shut', 'locked', 'far'],
    does: ['open-supply', 'open-far', 'power-on', 'let-air-out', 'check-leaks'],
  },
].map(stepOf);
export const branches: Sheet['branches'] = {
  call: { then: 'hand-over', steps: [stepOf({ id: 'leave', makes: ['told'] })] },
};
export const sheetWith = (changed: Partial<Sheet> = {}): Sheet => ({
  ...{ job: 'job', by: 'householder', found: [], features, steps, branches },
  ...changed,
});
export const context: WorkContext = { sheet: sheetWith(), conditions };
export const run = (events: WorkEvent[], within = context) => replay(within, events);
export const toOpen: WorkEvent[] = [
  { step: 'tell' },
  { step: 'lock' },
  { step: 'shut' },
  { step: 'tap', answer: 'dry' },
  { step: 'bleed', answer: 'silent' },
  { step: 'far' },
];
export const next = (events: WorkEvent[]) => nextInOrder(context, run(events))?.id;
