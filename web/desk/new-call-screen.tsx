import { useRef, useState } from 'hono/jsx/dom';
import type { Plant } from '../../shared/plant/schema.ts';
import { goTo } from '../common/router.ts';
import { useSettings } from '../common/settings.ts';
import { useSay } from '../common/words.ts';
import { ChoosePlant } from '../setup/choose-plant.tsx';
import { keepFetched } from '../store/new-case.ts';
import { openCase } from './api.ts';

/** A call comes in: who it is, the plant that sounds most like theirs, and the first question is on the screen. */
export function NewCallScreen() {
  const say = useSay();
  const { settings } = useSettings();
  const [failed, setFailed] = useState(false);
  const name = useRef<HTMLInputElement>(null);
  const callBack = useRef<HTMLInputElement>(null);
  const begin = (plant: Plant): void => {
    const named = { ...plant, name: name.current?.value.trim() || say('callers-plant') };
    openCase(named, settings.language, callBack.current?.value.trim() || undefined)
      .then(({ ref }) => keepFetched(`/api/desk/cases/${ref}`, 'agent'))
      .then(
        (kept) => goTo(`/case/${kept.key}`),
        () => setFailed(true),
      );
  };
  return (
    <ChoosePlant onChoose={begin}>
      {failed ? (
        <p class="wrong" role="alert">
          {say('call-failed')}
        </p>
      ) : null}
      <div class="field">
        <label for="caller-name">{say('caller-name')}</label>
        <input id="caller-name" type="text" autocomplete="off" maxlength={100} ref={name} />
      </div>
      <div class="field">
        <label for="call-back">{say('call-back')}</label>
        <input id="call-back" type="text" autocomplete="off" maxlength={100} ref={callBack} />
      </div>
      <p class="small">{say('caller-later')}</p>
    </ChoosePlant>
  );
}
