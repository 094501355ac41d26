import type { Part, Plant } from '../../../shared/plant/schema.ts';

export interface Trial {
  readonly plant: Plant;
  readonly open: { readonly open: number | readonly string[] };
}

/** A household plant of any shape the contract knows, and some outlets open at its end. */
export function randomTrial(random: () => number): Trial {
  const between = (low: number, high: number) => low + (high - low) * random();
  const chance = (share: number) => random() < share;
  const pick = <T>(values: readonly T[]): T => values[Math.floor(random() * values.length)] as T;

  const gravity = chance(0.12);
  const line: Part[] = [
    {
      id: 'tank',
      kind: 'tank',
      levelM: between(0.3, 2.5),
      outletHeightM: gravity ? between(8, 30) : between(0, 1),
    },
  ];
  if (chance(0.8)) {
    line.push({
      id: 'suction',
      kind: 'suction',
      lengthM: between(1, 12),
      boreMm: pick([25, 32, 40]),
      roughnessMm: between(0, 0.15),
      fittingsK: between(0.5, 10),
    });
  }
  if (!gravity) {
    line.push({ id: 'pump', kind: 'pump', heightM: between(0, 1), ...randomPump(random) });
    if (chance(0.6)) line.push({ id: 'vessel', kind: 'vessel', volumeL: pick([8, 24, 60, 100]) });
  }
  if (chance(0.5)) line.push({ id: 'valve', kind: 'valve' });
  if (chance(0.4)) line.push({ id: 'check', kind: 'check-valve' });
  const stages = Math.floor(between(0, 5));
  const stageIds: string[] = [];
  for (let i = 1; i <= stages; i++) {
    if (chance(0.6)) line.push({ id: `G${i}`, kind: 'gauge', heightM: between(0, 2) });
    const clean = {
      flowLpm: pick([10, 20, 30]),
      dropBar: between(0.02, 0.5) * (chance(0.15) ? 20 : 1),
      linearShare: between(0, 1),
    };
    const heightM = between(0, 2);
    const id = `stage-${i}`;
    stageIds.push(id);
    line.push(
      chance(0.2)
        ? { id, kind: 'uv', clean, heightM }
        : {
            id,
            kind: 'filter',
            medium: pick(['sediment', 'carbon', 'membrane', 'softener']),
            clean,
            heightM,
          },
    );
  }
  if (stages > 0 && chance(0.2)) {
    const around = stageIds.slice(0, Math.ceil(between(0, stages)) || 1);
    line.push({ id: 'bypass', kind: 'bypass', around, open: chance(0.7) });
  }
  if (chance(0.15)) {
    line.push({ id: 'reducer', kind: 'pressure-reducer', setBar: between(1, 3.5), heightM: 1 });
  }
  const floors = chance(0.5) ? Math.floor(between(1, 4)) : 0;
  const taps = Array.from({ length: floors }, (_, i) => ({
    id: `tap-${i + 1}`,
    heightM: between(0, 8),
    flowLpm: between(6, 25),
    atBar: 3,
  }));
  line.push({
    id: 'house',
    kind: 'house',
    heightM: between(0, 5),
    pipe: {
      lengthM: between(2, 80),
      boreMm: pick([13, 16, 20, 25, 32]),
      roughnessMm: between(0, 0.15),
      fittingsK: between(0, 20),
    },
    tap: { flowLpm: between(6, 20), atBar: 3 },
    taps,
  });
  const open =
    floors > 0 && chance(0.7)
      ? taps.slice(0, Math.ceil(between(0, floors)) || 1).map((tap) => tap.id)
      : Math.ceil(between(0, 4)) || 1;
  return { plant: { name: 'random', waterTempC: between(2, 35), line }, open: { open } };
}

function randomPump(random: () => number) {
  const between = (low: number, high: number) => low + (high - low) * random();
  const head = between(25, 75);
  const flow = between(30, 110);
  const shape = Math.floor(between(0, 4));
  const at = (share: number, headShare: number) => ({
    flowLpm: share * flow,
    headM: headShare * head,
  });
  const middle = between(0.65, 0.85);
  const curve = [
    [at(0.6, middle)],
    [at(0, 1), at(0.55, middle)],
    [at(0, 1), at(0.5, middle), at(0.9, middle * between(0.2, 0.6))],
    [at(0, 1), at(0.25, 0.95), at(0.5, 0.8), at(0.75, 0.5), at(0.95, 0.15)],
  ][shape];
  const cutInBar = between(1, 2.5);
  const control = [
    { kind: 'pressure-switch' as const, cutInBar, cutOutBar: cutInBar + between(0.8, 2) },
    { kind: 'flow-controller' as const, startBar: between(1, 2), minFlowLpm: between(0.5, 3) },
    { kind: 'variable-speed' as const, setBar: between(1.5, 4.5) },
    { kind: 'none' as const },
  ][Math.floor(between(0, 4))];
  return { ...(curve && { curve }), ...(control && { control }) };
}
