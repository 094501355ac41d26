import { createContext, useContext } from 'hono/jsx/dom';
import type { Audience } from '../../shared/case/answer.ts';
import {
  type PressureUnit,
  pressureUnits,
  type VolumeUnit,
  volumeUnits,
} from '../../shared/ruleset/figures.ts';

/** What a reader chose once and finds again: language, units, way of speaking. Kept in the browser, told to nobody. */
export interface Settings {
  readonly language: string;
  readonly pressure: PressureUnit;
  readonly volume: VolumeUnit;
  readonly audience: Audience;
}

const KEY = 'gaugewalk-settings';

/** Reads what was chosen; what was never chosen follows the browser's language. */
export function readSettings(languages: readonly string[], wanted: readonly string[]): Settings {
  const kept = keptSettings();
  const first = wanted.map((tag) => tag.slice(0, 2)).find((tag) => languages.includes(tag));
  const fallback = first ?? languages[0] ?? 'en';
  return {
    language: kept.language && languages.includes(kept.language) ? kept.language : fallback,
    pressure: pressureUnits.find((unit) => unit === kept.pressure) ?? 'bar',
    volume: volumeUnits.find((unit) => unit === kept.volume) ?? 'L',
    audience: kept.audience ?? 'householder',
  };
}

export function keepSettings(settings: Settings): void {
  try {
    localStorage.setItem(KEY, JSON.stringify(settings));
  } catch {
    // a browser that keeps nothing still works; it asks again next time
  }
}

function keptSettings(): Partial<Settings> {
  try {
    return JSON.parse(localStorage.getItem(KEY) ?? '{}') as Partial<Settings>;
  } catch {
    return {};
  }
}

export interface SettingsState {
  readonly settings: Settings;
  readonly languages: readonly string[];
  readonly change: (part: Partial<Settings>) => void;
}
export const SettingsContext = createContext<SettingsState>({
  settings: { language: 'en', pressure: 'bar', volume: 'L', audience: 'householder' },
  languages: ['en'],
  change: () => {},
});
export const useSettings = (): SettingsState => useContext(SettingsContext);
