import { useState } from 'hono/jsx/dom';
import type { Plant } from '../../shared/plant/schema.ts';
import { goTo } from '../common/router.ts';
import { useSettings } from '../common/settings.ts';
import { useSay } from '../common/words.ts';
import { ChoosePlant } from '../setup/choose-plant.tsx';
import { keepFetched } from '../store/new-case.ts';
import { openCase } from './api.ts';

/** A call comes in: the plant that sounds most like the caller's, and the first question is on the screen. */
export function NewCallScreen() {
  const say = useSay();
  const { settings } = useSettings();
  const [failed, setFailed] = useState(false);
  const begin = (plant: Plant): void => {
    openCase({ ...plant, name: say('callers-plant') }, settings.language)
      .then(({ ref }) => keepFetched(`/api/desk/cases/${ref}`, 'agent'))
      .then(
        (kept) => goTo(`/case/${kept.key}`),
        () => setFailed(true),
      );
  };
  return (
    <>
      {failed ? (
        <p class="wrong" role="alert">
          {say('call-failed')}
        </p>
      ) : null}
      <ChoosePlant onChoose={begin} />
    </>
  );
}
