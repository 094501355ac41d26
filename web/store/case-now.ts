import { localDay } from '../../shared/common/local-time.ts';
import type { Plant } from '../../shared/plant/schema.ts';
import type { CaseNow } from '../brain/protocol.ts';
import type { Settings } from '../common/settings.ts';
import type { KeptCase } from './kept.ts';

export const today = (): string => localDay(new Date());

/** A kept case as the worker takes it; `plant` as the answers have left it. */
export function caseNow(kept: KeptCase, settings: Settings, plant: Plant = kept.plant): CaseNow {
  return {
    plant,
    answers: kept.answers,
    audience: kept.audience,
    day: today(),
    units: {
      pressure: settings.pressure,
      volume: settings.volume,
      language: settings.language,
    },
  };
}
