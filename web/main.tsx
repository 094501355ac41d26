import { render } from 'hono/jsx/dom';
import { App } from './app.tsx';
import { brain } from './brain/client.ts';
import type { ScreenWords } from './common/say.ts';
import { readSettings } from './common/settings.ts';
import { registerOffline } from './offline/register.ts';

/** Starts the client: the words of the reader's language first, the rule set meanwhile in its worker. */
async function start(): Promise<void> {
  const languages = (await (await fetch('/rules/languages.json')).json()) as string[];
  const settings = readSettings(languages, navigator.languages);
  void brain.start(settings.language);
  const words = (await (
    await fetch(`/rules/screen-${settings.language}.json`)
  ).json()) as ScreenWords;
  const root = document.getElementById('app');
  if (root) render(<App languages={languages} settings={settings} words={words} />, root);
  registerOffline();
}

void start();
