import { z } from 'zod';
import { atLeastZero, finite, positive } from '../common/figures.ts';

/**
 * The parts a plant's line may hold, as they stand in a plant file. Everything but `id`, `kind` and a filter's `medium`
 * may be left out: what is not known is not asked for, and the defaults table says what is taken instead.
 * Units are in the names: bar are gauge pressures, metres of height count from the tank's foot.
 */

const share = z.number().min(0).max(1);
const day = z.iso.date();
const idSchema = z.string().regex(/^[a-zA-Z0-9-]+$/, 'use letters, digits and hyphens only');

const base = { id: idSchema, heightM: finite.optional() };

const cleanSchema = z.strictObject({
  flowLpm: positive.optional(),
  dropBar: positive.optional(),
  linearShare: share.optional(),
});

const tank = z.strictObject({
  id: idSchema,
  kind: z.literal('tank'),
  volumeL: positive.optional(),
  levelM: atLeastZero.optional(),
  outletHeightM: finite.optional(),
  /** it stands on a hill above the house; how high, a gauge at rest may tell */
  uphill: z.boolean().optional(),
});

const suction = z.strictObject({
  ...base,
  kind: z.literal('suction'),
  lengthM: atLeastZero.optional(),
  boreMm: positive.optional(),
  roughnessMm: atLeastZero.optional(),
  fittingsK: atLeastZero.optional(),
  strainer: z.boolean().optional(),
  footValve: z.boolean().optional(),
});

const controlSchema = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('pressure-switch'),
    cutInBar: atLeastZero.optional(),
    cutOutBar: positive.optional(),
  }),
  z.strictObject({
    kind: z.literal('flow-controller'),
    startBar: atLeastZero.optional(),
    minFlowLpm: atLeastZero.optional(),
  }),
  z.strictObject({ kind: z.literal('variable-speed'), setBar: positive.optional() }),
  z.strictObject({ kind: z.literal('none') }),
]);

const flowAndHead = z.strictObject({ flowLpm: atLeastZero, headM: atLeastZero });

const pump = z.strictObject({
  ...base,
  kind: z.literal('pump'),
  submersible: z.boolean().optional(),
  checkValve: z.boolean().optional(),
  curve: z.array(flowAndHead).min(1).optional(),
  npshRequired: z.array(flowAndHead).min(1).optional(),
  control: controlSchema.optional(),
});

const vessel = z.strictObject({
  ...base,
  kind: z.literal('vessel'),
  volumeL: positive.optional(),
  prechargeBar: atLeastZero.optional(),
});

const valve = z.strictObject({ ...base, kind: z.literal('valve'), open: z.boolean().optional() });
const checkValve = z.strictObject({ ...base, kind: z.literal('check-valve') });
const drain = z.strictObject({ ...base, kind: z.literal('drain') });
const dosingPump = z.strictObject({ ...base, kind: z.literal('dosing-pump') });

const bypass = z.strictObject({
  ...base,
  kind: z.literal('bypass'),
  around: z.array(idSchema).min(1),
  open: z.boolean().optional(),
});

const reducer = z.strictObject({
  ...base,
  kind: z.literal('pressure-reducer'),
  setBar: positive.optional(),
});

const reliefValve = z.strictObject({
  ...base,
  kind: z.literal('relief-valve'),
  setBar: positive.optional(),
});

const gauge = z.strictObject({
  ...base,
  kind: z.literal('gauge'),
  rangeBar: positive.optional(),
  classPercent: positive.optional(),
  divisionBar: positive.optional(),
});

export const media = ['sediment', 'carbon', 'membrane', 'softener'] as const;

const filter = z.strictObject({
  ...base,
  kind: z.literal('filter'),
  medium: z.enum(media),
  ratingMicron: positive.optional(),
  bleed: z.boolean().optional(),
  clean: cleanSchema.optional(),
  fittedOn: day.optional(),
  lifeMonths: positive.optional(),
});

const uv = z.strictObject({
  ...base,
  kind: z.literal('uv'),
  ratedFlowLpm: positive.optional(),
  ratedDoseMjCm2: positive.optional(),
  lampFittedOn: day.optional(),
  lampLifeH: positive.optional(),
  clean: cleanSchema.optional(),
});

/** A back-up supply. `changeover`: true or "automatic" takes over when the pump gives nothing, else by hand. */
const mains = z.strictObject({
  ...base,
  kind: z.literal('mains'),
  changeover: z.union([z.boolean(), z.enum(['automatic', 'manual'])]).optional(),
  pressureBar: positive.optional(),
});

const outletFields = { flowLpm: positive.optional(), atBar: positive.optional() };

const house = z.strictObject({
  ...base,
  kind: z.literal('house'),
  pipe: z
    .strictObject({
      lengthM: atLeastZero.optional(),
      boreMm: positive.optional(),
      roughnessMm: atLeastZero.optional(),
      fittingsK: atLeastZero.optional(),
    })
    .optional(),
  tap: z.strictObject(outletFields).optional(),
  taps: z
    .array(z.strictObject({ id: idSchema, heightM: finite.optional(), ...outletFields }))
    .optional(),
  need: z
    .strictObject({ open: z.number().int().positive().optional(), flowLpm: positive.optional() })
    .optional(),
});

export const partSchema = z.discriminatedUnion('kind', [
  tank,
  suction,
  pump,
  vessel,
  valve,
  checkValve,
  bypass,
  reducer,
  reliefValve,
  dosingPump,
  drain,
  mains,
  gauge,
  filter,
  uv,
  house,
]);

export const partKinds = [
  'tank',
  'suction',
  'pump',
  'vessel',
  'valve',
  'check-valve',
  'bypass',
  'pressure-reducer',
  'relief-valve',
  'dosing-pump',
  'drain',
  'mains',
  'gauge',
  'filter',
  'uv',
  'house',
] as const;

export type Part = z.infer<typeof partSchema>;
export type PartKind = Part['kind'];
export type Medium = (typeof media)[number];
export type PartOf<K extends PartKind> = Extract<Part, { kind: K }>;
export type PumpPart = z.infer<typeof pump>;
export type BypassPart = z.infer<typeof bypass>;
export type GaugePart = z.infer<typeof gauge>;
export type PumpControl = z.infer<typeof controlSchema>;
export type FlowAndHead = z.infer<typeof flowAndHead>;
