import type { Audience } from '../../shared/case/answer.ts';
import { audiences } from '../common/audiences.ts';
import { onLink } from '../common/router.ts';
import { useSay } from '../common/words.ts';
import { isAtDesk } from '../desk/signed-in.ts';
import { leadingText } from '../ranking/leading.tsx';
import type { OpenCase } from '../store/use-case.ts';
import { Refused } from './refused.tsx';
import { LanguageField } from './settings-form.tsx';

/** Whose plant it is, how it is spoken, where the case stands; the likely cause is always in sight. */
export function CaseHead({ open, base }: { readonly open: OpenCase; readonly base: string }) {
  const say = useSay();
  const { kept, looked, sync } = open;
  const list = isAtDesk(kept.base) ? '/desk' : '/';
  return (
    <header class="case-head">
      <div class="row">
        <a class="quiet" href={list} onClick={onLink}>
          {say(list === '/' ? 'to-start' : 'to-desk')}
        </a>
        <h1 class="plant-name">{looked.plant.name}</h1>
      </div>
      <p class="leading" role="status">
        {leadingText(open, say)}
      </p>
      <details class="menu">
        <summary>{say('menu')}</summary>
        <div class="menu-inside">
          <fieldset>
            <legend>{say('speak-as')}</legend>
            {audiences.map((audience: Audience) => (
              <label key={audience} class="radio">
                <input
                  type="radio"
                  name="audience"
                  checked={kept.audience === audience}
                  onChange={() => open.change((now) => ({ ...now, audience }))}
                />
                {say(`audience-${audience}`)}
              </label>
            ))}
          </fieldset>
          <LanguageField />
          <p class="small">{say(kept.closed ? 'sync-closed' : `sync-${sync}`)}</p>
          <ul class="links">
            {(['plant', 'report', 'pump-house', 'dates', 'hand-over'] as const).map((page) => (
              <li key={page}>
                <a href={`${base}/${page}`} onClick={onLink}>
                  {say(`to-${page}`)}
                </a>
              </li>
            ))}
            {kept.local ? (
              <li>
                <a href="/demo" onClick={onLink}>
                  {say('reset-demo')}
                </a>
              </li>
            ) : null}
          </ul>
        </div>
      </details>
      <Refused open={open} />
    </header>
  );
}
