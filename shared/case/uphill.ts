import { BAR_PER_M } from '../common/water-column.ts';
import { heightDefault, tankDefaults } from '../plant/defaults-table.ts';
import type { Plant } from '../plant/schema.ts';

/**
 * How high a tank on a hill stands, by the gauges with all taps shut: nothing flows and no pump runs, so they show the
 * height of the water above them. One that differs from the others counts for no more than they do, and one behind a
 * pressure reducer shows what that holds.
 */
export function withHeightRead(
  plant: Plant,
  closedBar: Readonly<Record<string, number | 'unknown'>> | undefined,
): Plant {
  const tank = plant.line.find((part) => part.kind === 'tank');
  const isOpen = tank?.uphill === true && tank.outletHeightM === undefined;
  if (!isOpen || !closedBar || plant.line.some(({ kind }) => kind === 'pump')) return plant;
  const reducer = plant.line.findIndex(({ kind }) => kind === 'pressure-reducer');
  const surfacesM = plant.line
    .slice(0, reducer < 0 ? undefined : reducer)
    .flatMap((part) => {
      const bar = part.kind === 'gauge' ? closedBar[part.id] : undefined;
      const heightM = (part.kind === 'gauge' ? part.heightM : undefined) ?? heightDefault.value;
      return typeof bar === 'number' ? [bar / BAR_PER_M + heightM] : [];
    })
    .toSorted((a, b) => a - b);
  const surfaceM = surfacesM[surfacesM.length >> 1];
  if (surfaceM === undefined) return plant;
  const outletHeightM = surfaceM - (tank.levelM ?? tankDefaults.levelM.value);
  return {
    ...plant,
    line: plant.line.map((part) => (part === tank ? { ...part, outletHeightM } : part)),
  };
}
