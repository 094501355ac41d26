import { z } from 'zod';
import { drinkingHazard } from './hazard.ts';

/** What a cause's table may hold, and the places causes sit in. */

export const id = z.string().regex(/^[a-z0-9-]+$/, 'use small letters, digits and hyphens');

/** The kinds of place a cause can sit in; the plant's parts are matched to these. */
export const placeKinds = [
  'plant',
  'tank',
  'suction',
  'pump',
  'control',
  'vessel',
  'check-valve',
  'valve',
  'bypass',
  'sediment',
  'carbon',
  'membrane',
  'softener',
  'uv',
  'reducer',
  'gauge',
  'line',
  'house',
  'outlet',
] as const;
export const placeKind = z.enum(placeKinds);
export type PlaceKind = z.infer<typeof placeKind>;

/** A value or a range from the slightest to the worst that still counts; a range is spread evenly on a log or linear scale. */
const span = z.union([z.number(), z.tuple([z.number(), z.number()])], {
  error: 'needs one number, or [slightest, worst]',
});
export type Span = z.infer<typeof span>;

/**
 * One way a cause changes the line. Each key is a primitive of the hydraulics; ranges run together from the
 * slightest to the worst. `share` weighs several ways of the same cause.
 */
export const change = z.strictObject({
  share: z.number().positive().default(1),
  /** × a cartridge's linear resistance */
  linearTimes: span.optional(),
  /** bar lost besides at 20 L/min, with the square of the flow (a part-shut valve, a frozen or crushed pipe) */
  extraBarAt20Lpm: span.optional(),
  /** the bypass around the parts passes */
  bypassOpen: z.literal(true).optional(),
  /** × the pump's head, × its flow */
  headTimes: span.optional(),
  flowTimes: span.optional(),
  /** metres lost besides on the suction side at the house's need */
  suctionLossM: span.optional(),
  /** metres of water over the tank's outlet */
  levelM: span.optional(),
  /** the pump gives nothing, and what is then heard */
  pumpGives: z.enum(['silent', 'hums', 'runs-dry']).optional(),
  /** pressure swings by this share while running */
  unsteadyShare: span.optional(),
  /** the control never lets the pump stop, or stops and starts are shifted */
  neverStops: z.literal(true).optional(),
  cutInBar: span.optional(),
  cutOutBar: span.optional(),
  /** × the gas the vessel holds; bar added to its precharge; no gas at all */
  gasTimes: span.optional(),
  prechargeBar: span.optional(),
  waterlogged: z.literal(true).optional(),
  /** L/min lost at 3 bar with all taps shut: past the house valve, or back to the tank */
  leakLpm: span.optional(),
  backLeakLpm: span.optional(),
  /** × the house pipe's loss, × what one outlet passes, × the taps really open */
  housePipeTimes: span.optional(),
  outletTimes: span.optional(),
  demandTimes: span.optional(),
  /** bar added to a reducer's set pressure */
  reducerBar: span.optional(),
  /** its seat lets water by while nothing is drawn: behind it the pressure creeps up to what stands before it */
  reducerPasses: z.literal(true).optional(),
  /** share of its range by which a gauge reads wrong, both ways */
  gaugeShare: span.optional(),
});
export type Change = z.infer<typeof change>;

const scaleWord = z.enum(['log', 'linear']);

export const cause = z.strictObject({
  block: z.enum(['hydraulic', 'quality']),
  /** where it can sit; the cause is left out of a plant that has no such place */
  in: placeKind,
  /** needs one of these kinds of control to be possible at all */
  control: z
    .array(z.enum(['pressure-switch', 'flow-controller', 'variable-speed', 'none']))
    .optional(),
  /** new cases in a year, and the days until somebody asks for help */
  ratePerYear: z.number().positive(),
  noticedDays: z.number().positive(),
  /** the rate is for each place (every cartridge), not shared by the plant's places (one valve of three) */
  each: z.literal(true).optional(),
  /** months after which it is due; odds grow with age against it (the part's own lifeMonths wins) */
  lifeMonths: z.number().positive().optional(),
  /** present exactly when past its life: then it is overdue, and uses up no place among the causes sought */
  pastLife: z.literal(true).optional(),
  /** answers that ask for it: with one of them it is sought like any other cause, though its age is known */
  soughtWhen: z.array(z.strictObject({ question: id, oneOf: z.array(id) })).optional(),
  /** × odds after such work (recent-work answers) */
  afterWork: z.record(id, z.number().positive()).default({}),
  /** × odds when the water is colder than this (°C) */
  belowC: z.strictObject({ waterC: z.number(), times: z.number().positive() }).optional(),
  changes: z.array(change).default([]),
  scale: scaleWord.default('log'),
  /** what may be in the water while it leads */
  hazard: z.enum(['none', ...drinkingHazard.options]).default('none'),
  source: z.string().default('common practice'),
});
export type Cause = z.infer<typeof cause>;
