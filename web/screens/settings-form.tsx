import type { Audience } from '../../shared/case/answer.ts';
import {
  type PressureUnit,
  pressureUnits,
  type VolumeUnit,
  volumeUnits,
} from '../../shared/ruleset/figures.ts';
import { audiences } from '../common/audiences.ts';
import { useSettings } from '../common/settings.ts';
import { useSay } from '../common/words.ts';

interface Choice {
  readonly id: string;
  readonly value: string;
  readonly options: readonly (readonly [value: string, words: string])[];
  readonly onChoose: (value: string) => void;
}

/** Language, units and way of speaking; remembered in this browser. */
export function SettingsForm() {
  const say = useSay();
  const { settings, change } = useSettings();
  const choices: Choice[] = [
    {
      id: 'speak-as',
      value: settings.audience,
      options: audiences.map((audience) => [audience, say(`audience-${audience}`)]),
      onChoose: (audience) => change({ audience: audience as Audience }),
    },
    {
      id: 'pressure-in',
      value: settings.pressure,
      options: pressureUnits.map((unit) => [unit, say(`unit-${unit.toLowerCase()}`)]),
      onChoose: (pressure) => change({ pressure: pressure as PressureUnit }),
    },
    {
      id: 'volume-in',
      value: settings.volume,
      options: volumeUnits.map((unit) => [
        unit,
        say(`unit-${unit.replace(' ', '-').toLowerCase()}`),
      ]),
      onChoose: (volume) => change({ volume: volume as VolumeUnit }),
    },
  ];
  return (
    <section class="settings">
      <h2>{say('settings')}</h2>
      <LanguageField />
      {choices.map((choice) => (
        <ChoiceField key={choice.id} {...choice} />
      ))}
    </section>
  );
}

/** The language by itself, for where the rest is not asked. */
export function LanguageField() {
  const { settings, languages, change } = useSettings();
  return (
    <ChoiceField
      id="language"
      value={settings.language}
      options={languages.map((tag) => [tag, languageName(tag)])}
      onChoose={(language) => change({ language })}
    />
  );
}

function ChoiceField({ id, value, options, onChoose }: Choice) {
  const say = useSay();
  return (
    <div class="field">
      <label for={id}>{say(id)}</label>
      <select
        id={id}
        onChange={(event: Event) => onChoose((event.target as HTMLSelectElement).value)}
      >
        {options.map(([option, words]) => (
          <option value={option} selected={option === value}>
            {words}
          </option>
        ))}
      </select>
    </div>
  );
}

/** A language under its own name. */
function languageName(tag: string): string {
  return new Intl.DisplayNames([tag], { type: 'language' }).of(tag) ?? tag;
}
