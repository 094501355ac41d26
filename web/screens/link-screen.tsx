import { useState } from 'hono/jsx/dom';
import { goTo } from '../common/router.ts';
import { useEffect } from '../common/use-effect.ts';
import { useSay } from '../common/words.ts';
import { isOffline } from '../store/http.ts';
import { keepFetched } from '../store/new-case.ts';
import { NoCase, Waiting } from './no-case.tsx';

/** A link somebody was given: the case is fetched, kept here, and opened as a householder's. */
export function LinkScreen({ id }: { readonly id: string }) {
  const say = useSay();
  const [failed, setFailed] = useState<'offline' | 'gone' | null>(null);
  useEffect(() => {
    keepFetched(`/api/cases/${id}`, 'householder').then(
      (kept) => goTo(`/case/${kept.key}`),
      (error: unknown) => setFailed(isOffline(error) ? 'offline' : 'gone'),
    );
  }, [id]);
  if (failed === 'gone') return <NoCase />;
  if (failed === 'offline') {
    return (
      <main class="page">
        <h1>{say('link-offline')}</h1>
      </main>
    );
  }
  return <Waiting />;
}
