import type { Part, PumpControl } from '../../shared/plant/parts.ts';
import { type Drawn, part, rounded } from './drawn-part.ts';
import type { Random } from './random.ts';

/** The pump with its control, and a vessel where the control wants one. */
export function pumpParts(random: Random): Drawn[] {
  const curveKnown = random.chance(0.75);
  const headM = curveKnown ? random.between(34, 58) : 45 * Math.exp(random.normal(0.07));
  const flowLpm = curveKnown ? random.between(26, 50) : 33 * Math.exp(random.normal(0.11));
  const curve = [
    { flowLpm: 0, headM: rounded(headM) },
    { flowLpm: rounded(flowLpm), headM: rounded(0.75 * headM) },
    { flowLpm: rounded(1.75 * flowLpm), headM: rounded(0.27 * headM) },
  ];
  const npshRequired = random.chance(0.4)
    ? [{ flowLpm: rounded(flowLpm), headM: rounded(random.between(2, 4)) }]
    : undefined;
  const control = drawControl(random, headM);
  const hasVessel = control.truth.kind !== 'flow-controller';
  const base = {
    id: 'pump',
    kind: 'pump' as const,
    heightM: 0.3,
    checkValve: random.chance(0.85),
  };
  const pump: Drawn = {
    truth: { ...base, curve, control: control.truth, ...(npshRequired && { npshRequired }) },
    told: {
      ...base,
      control: control.told,
      ...(curveKnown && { curve }),
      ...(npshRequired && { npshRequired }),
    },
  };
  if (!hasVessel) return [pump];
  const { truth: kind } = control;
  const startBar =
    kind.kind === 'pressure-switch'
      ? (kind.cutInBar ?? 2)
      : kind.kind === 'variable-speed'
        ? (kind.setBar ?? 3.5) - 1
        : 2;
  const vessel = part(
    random,
    { id: 'vessel', kind: 'vessel' },
    { volumeL: kind.kind === 'variable-speed' ? [8, 0.8, 4, 20] : [24, 0.8, 18, 80] },
  );
  const prechargeBar = rounded(startBar - random.between(0.12, 0.28));
  const setAt = random.chance(0.4);
  return [
    pump,
    {
      truth: { ...vessel.truth, prechargeBar } as Part,
      told: { ...vessel.told, ...(setAt && { prechargeBar }) } as Part,
    },
  ];
}

function drawControl(random: Random, headM: number): { truth: PumpControl; told: PumpControl } {
  const topBar = headM * 0.098;
  const known = random.chance(0.75);
  const off = () => random.between(-0.15, 0.15);
  switch (
    random.weighted([
      ['pressure-switch', 48],
      ['flow-controller', 37],
      ['variable-speed', 15],
    ] as const)
  ) {
    case 'pressure-switch': {
      const cutOutBar = known
        ? Math.min(random.between(2.9, 4), topBar * 0.86)
        : Math.min(3.5 + off(), topBar * 0.9);
      const cutInBar = known ? cutOutBar - random.between(1.1, 1.6) : cutOutBar - 1.5 + off();
      const truth = {
        kind: 'pressure-switch' as const,
        cutInBar: rounded(cutInBar),
        cutOutBar: rounded(cutOutBar),
      };
      return { truth, told: known ? truth : { kind: 'pressure-switch' } };
    }
    case 'flow-controller': {
      const startBar = known ? random.between(1.1, Math.min(2, topBar * 0.5)) : 1.5 + off();
      const truth = {
        kind: 'flow-controller' as const,
        startBar: rounded(startBar),
        minFlowLpm: known ? rounded(random.between(1, 2)) : 1.5,
      };
      return { truth, told: known ? truth : { kind: 'flow-controller' } };
    }
    case 'variable-speed': {
      const setBar = known
        ? random.between(2.5, topBar * 0.78)
        : Math.min(3.5 + off(), topBar * 0.85);
      const truth = { kind: 'variable-speed' as const, setBar: rounded(setBar) };
      return { truth, told: known ? truth : { kind: 'variable-speed' } };
    }
  }
}
