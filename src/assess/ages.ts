import type { Plant } from '../../shared/plant/schema.ts';
import { TODAY } from './plants.ts';

/** Age of a dated part as a share of its life; null for parts without a date. Lamps last 9000 h, burning day and night. */
export function ageShare(plant: Plant, partId: string): number | null {
  const part = plant.line.find((p) => p.id === partId);
  const since =
    part?.kind === 'filter' ? part.fittedOn : part?.kind === 'uv' ? part.lampFittedOn : undefined;
  if (!since) return null;
  const days = (Date.parse(TODAY) - Date.parse(since)) / 86_400_000;
  if (part?.kind === 'uv') return (days * 24) / (part.lampLifeH ?? 9000);
  return days / (30.4 * (part?.kind === 'filter' ? (part.lifeMonths ?? 12) : 12));
}
