import { useMemo, useRef, useState } from 'hono/jsx/dom';
import { BRAIN_FAILED, brain } from './brain/client.ts';
import { usePath } from './common/router.ts';
import { type ScreenWords, sayWith } from './common/say.ts';
import { keepSettings, type Settings, SettingsContext } from './common/settings.ts';
import { onceAKey } from './common/use-armed.ts';
import { useEffect } from './common/use-effect.ts';
import { SayContext } from './common/words.ts';
import { Routes } from './routes.tsx';
import { NotLoaded } from './screens/no-case.tsx';
import { keepTrying } from './store/outbox.ts';

interface Props {
  readonly languages: readonly string[];
  readonly settings: Settings;
  readonly words: ScreenWords;
}

/** Holds what a reader chose and the words in their language; everything below finds both by context. */
export function App(props: Props) {
  const [settings, setSettings] = useState(props.settings);
  const [words, setWords] = useState(props.words);
  const [failed, setFailed] = useState(false);
  const path = usePath();
  const say = useMemo(() => sayWith(words), [words]);
  const language = useRef(settings.language);

  useEffect(() => keepTrying(() => language.current ?? settings.language), []);
  useEffect(() => {
    addEventListener('keydown', onceAKey);
    return () => removeEventListener('keydown', onceAKey);
  }, []);
  useEffect(() => {
    const fail = (): void => setFailed(true);
    addEventListener(BRAIN_FAILED, fail);
    return () => removeEventListener(BRAIN_FAILED, fail);
  }, []);
  useEffect(() => {
    document.documentElement.lang = settings.language;
    document.title = say('app-title');
  }, [say]);

  const change = (part: Partial<Settings>): void => {
    const next = { ...settings, ...part };
    keepSettings(next);
    if (next.language === settings.language) {
      setSettings(next);
      return;
    }
    language.current = next.language;
    void (async () => {
      const [fetched] = await Promise.all([
        fetch(`/rules/screen-${next.language}.json`).then((response) => response.json()),
        brain.start(next.language),
      ]);
      setWords(fetched as ScreenWords);
      setSettings(next);
    })();
  };
  return (
    <SettingsContext.Provider value={{ settings, languages: props.languages, change }}>
      <SayContext.Provider value={say}>
        {failed ? <NotLoaded /> : <Routes path={path} />}
      </SayContext.Provider>
    </SettingsContext.Provider>
  );
}
