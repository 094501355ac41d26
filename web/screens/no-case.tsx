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
