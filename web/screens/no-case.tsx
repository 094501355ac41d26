import { onLink } from '../common/router.ts';
import { useSay } from '../common/words.ts';

export function NoCase() {
  const say = useSay();
  return (
    <main class="page">
      <h1>{say('no-case')}</h1>
      <p>{say('no-case-why')}</p>
      <a class="main" href="/" onClick={onLink}>
        {say('to-start')}
      </a>
    </main>
  );
}

export function Waiting() {
  const say = useSay();
  return (
    <main class="page" aria-busy="true">
      <p>{say('one-moment')}</p>
    </main>
  );
}

/** A screen whose file cannot be fetched: loading the page again brings the newer one. */
export function NotLoaded() {
  const say = useSay();
  return (
    <main class="page">
      <h1>{say('not-loaded')}</h1>
      <p>{say('not-loaded-why')}</p>
      <button type="button" class="main" onClick={() => location.reload()}>
        {say('load-again')}
      </button>
    </main>
  );
}
