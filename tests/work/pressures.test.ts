import { expect, test } from 'vitest';
import { fernhollow } from '../../shared/plant/fernhollow.ts';
import type { Part } from '../../shared/plant/schema.ts';
import { pressuresOf } from '../../shared/work/holes.ts';

const gasOf = (prechargeBar: number | undefined, cutInBar: number | undefined) => {
  const line = fernhollow.line.map((part): Part => {
    if (part.kind === 'pump') return { ...part, control: { kind: 'pressure-switch', cutInBar } };
    return part.kind === 'vessel' ? { ...part, prechargeBar } : part;
  });
  return pressuresOf({ ...fernhollow, line }).gas;
};

test.each([
  ['what it was sold with, under a switch that starts elsewhere', 1.5, 2.2, 2],
  ['nothing said of the vessel', undefined, 2.2, 2],
  ['nothing said of the switch', 1.5, undefined, 1.5],
  ['nothing said', undefined, undefined, undefined],
])('a vessel is set under the pressure at which the pump starts: %s', (_, sold, cutIn, gas) => {
  const found = gasOf(sold, cutIn);
  if (gas === undefined) expect(found).toBeUndefined();
  else expect(found).toBeCloseTo(gas, 9);
});
