import { BAR_PER_M } from '../common/water-column.ts';
import { resolvePlant } from './defaults.ts';
import { tankDefaults } from './defaults-table.ts';
import type { ResolvedControl, ResolvedPart } from './resolved.ts';
import type { Plant } from './schema.ts';

/** Something odd about a plant that can still be worked with. The words for it stand in the rule set, by id. */
export interface PlantWarning {
  readonly id:
    | 'uv-before-sediment'
    | 'uv-not-last'
    | 'switch-without-vessel'
    | 'gauge-range-low'
    | 'pump-under-stop'
    | 'fitted-later';
  /** what the words speak of: part ids, and pressures as numbers in bar */
  readonly params: Readonly<Record<string, string | number>>;
}

/** Every warning that a plant gives rise to, in the order of its line. */
export function plantWarnings(plant: Plant): PlantWarning[] {
  const { line } = resolvePlant(plant).plant;
  const warnings: PlantWarning[] = [...pumpUnderStop(plant)];
  const stopBar = stopPressureBar(line);
  const hasVessel = line.some((part) => part.kind === 'vessel');
  line.forEach((part, index) => {
    const behind = line.slice(index + 1);
    if (part.kind === 'uv') warnings.push(...uvWarnings(part.id, behind));
    if (part.kind === 'pump' && part.control.kind === 'pressure-switch' && !hasVessel) {
      warnings.push({ id: 'switch-without-vessel', params: { part: part.id } });
    }
    if (part.kind === 'gauge' && stopBar !== null && part.rangeBar < stopBar) {
      const { id, rangeBar } = part;
      warnings.push({
        id: 'gauge-range-low',
        params: { part: id, range: rangeBar, cutOut: stopBar },
      });
    }
  });
  return warnings;
}

/** Cartridges and lamps said to have been fitted on a day that has not come yet: most often the wrong year. */
export function datesAhead({ line }: Plant, today: string): PlantWarning[] {
  return line.flatMap((part): PlantWarning[] => {
    const day = fittedOn(part);
    if (day === undefined || day <= today) return [];
    return [{ id: 'fitted-later', params: { part: part.id, day, today } }];
  });
}

function fittedOn(part: Plant['line'][number]): string | undefined {
  if (part.kind === 'uv') return part.lampFittedOn;
  return part.kind === 'filter' ? part.fittedOn : undefined;
}

/** A pump that by its own plate never reaches what it is set to: feet or another pressure were read as metres, or the wrong line. */
function pumpUnderStop({ line }: Plant): PlantWarning[] {
  const pump = line.find((part) => part.kind === 'pump');
  const control = pump?.control;
  const stopBar =
    control?.kind === 'pressure-switch'
      ? control.cutOutBar
      : control?.kind === 'variable-speed'
        ? control.setBar
        : undefined;
  const [first, second] = pump?.curve ?? [];
  // without a point at no flow or a curve from one point nobody knows what it gives at the most
  if (!pump || !first || stopBar === undefined || (first.flowLpm > 0 && second)) return [];
  const shutOffM = first.flowLpm > 0 ? (4 / 3) * first.headM : first.headM;
  const tank = line.find((part) => part.kind === 'tank');
  const { levelM, outletHeightM } = tankDefaults;
  const mostLevelM = levelM.spread.kind === 'range' ? levelM.spread.high : levelM.value;
  const waterM = (tank?.levelM ?? mostLevelM) + (tank?.outletHeightM ?? outletHeightM.value);
  const mostBar = (shutOffM + waterM) * BAR_PER_M;
  if (mostBar >= stopBar) return [];
  return [{ id: 'pump-under-stop', params: { part: pump.id, most: mostBar, stop: stopBar } }];
}

/** Lamps need clear water, and what stands behind one can seed the line again. */
function uvWarnings(uv: string, behind: readonly ResolvedPart[]): PlantWarning[] {
  const warnings: PlantWarning[] = [];
  const sediment = behind.find((part) => part.kind === 'filter' && part.medium === 'sediment');
  if (sediment) {
    warnings.push({ id: 'uv-before-sediment', params: { part: uv, other: sediment.id } });
  }
  const filter = behind.find((part) => part.kind === 'filter');
  if (filter) warnings.push({ id: 'uv-not-last', params: { part: uv, other: filter.id } });
  return warnings;
}

/** The pressure at which the pump stops or which it holds, where a setting says so. */
function stopPressureBar(line: readonly ResolvedPart[]): number | null {
  const pump = line.find((part) => part.kind === 'pump');
  const control: ResolvedControl = pump?.control ?? { kind: 'none' };
  if (control.kind === 'pressure-switch') return control.cutOutBar;
  return control.kind === 'variable-speed' ? control.setBar : null;
}
