import { useState } from 'hono/jsx/dom';
import { AskTwice } from '../common/ask-twice.tsx';
import { onLink } from '../common/router.ts';
import { useEffect } from '../common/use-effect.ts';
import { useFormat } from '../common/use-format.ts';
import { useSay } from '../common/words.ts';
import { forgetCase, listCases } from '../store/db.ts';
import type { KeptCase } from '../store/kept.ts';
import { SettingsForm } from './settings-form.tsx';

/** What it is for, the cases that are kept here, and the ways in: whoever has begun wants to go on. */
export function StartScreen() {
  const say = useSay();
  const format = useFormat();
  const [cases, setCases] = useState<readonly KeptCase[]>([]);
  useEffect(() => void listCases().then(setCases), []);
  const forget = (key: string): void => {
    void forgetCase(key).then(() => setCases(cases.filter((kept) => kept.key !== key)));
  };
  return (
    <main class="page start">
      <h1>{say('app-name')}</h1>
      <p class="says">{say('app-says')}</p>
      {cases.length > 0 ? (
        <section>
          <h2>{say('kept-cases')}</h2>
          <ul class="lines">
            {cases.map((kept) => (
              <li key={kept.key} class="kept">
                <a class="line" href={`/case/${kept.key}`} onClick={onLink}>
                  <span class="label name">{kept.plant.name}</span>
                  <span class="given">
                    {say('kept-line', {
                      when: format.time(kept.changedAt),
                    })}
                  </span>
                </a>
                <AskTwice
                  ask={say('forget')}
                  sure={say('forget-now')}
                  label={say('forget-case', { name: kept.plant.name })}
                  onSure={() => forget(kept.key)}
                />
              </li>
            ))}
          </ul>
        </section>
      ) : null}
      <nav class="ways" aria-label={say('ways-in')}>
        <a class="main" href="/plant" onClick={onLink}>
          {say('begin')}
        </a>
        <a class="choice" href="/demo" onClick={onLink}>
          {say('try-demo')}
        </a>
        <a class="choice" href="/desk" onClick={onLink}>
          {say('to-desk')}
        </a>
      </nav>
      <SettingsForm />
      <p class="small">{say('safety-first')}</p>
    </main>
  );
}
