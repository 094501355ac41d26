import { useRef, useState } from 'hono/jsx/dom';
import { untilDescribed } from '../../shared/plant/ready-made.ts';
import type { Plant } from '../../shared/plant/schema.ts';
import { goTo, onLink } from '../common/router.ts';
import { useSettings } from '../common/settings.ts';
import { useEffect } from '../common/use-effect.ts';
import { useSay } from '../common/words.ts';
import { ChoosePlant } from '../setup/choose-plant.tsx';
import { keepFetched } from '../store/new-case.ts';
import { openCase } from './api.ts';

/**
 * A call comes in: who it is, and the plant that sounds most like theirs. Who is in danger waits for neither: the first
 * question is a key away.
 */
export function NewCallScreen() {
  const say = useSay();
  const { settings } = useSettings();
  const [failed, setFailed] = useState(false);
  const name = useRef<HTMLInputElement>(null);
  const callBack = useRef<HTMLInputElement>(null);
  useEffect(() => {
    name.current?.focus();
  }, []);
  const begin = (plant: Plant): void => {
    const named = { ...plant, name: name.current?.value.trim() || say('callers-plant') };
    openCase(named, settings.language, callBack.current?.value.trim() || undefined)
      .then(({ ref }) => keepFetched(`/api/desk/cases/${ref}`, 'agent'))
      .then(
        (kept) => goTo(`/case/${kept.key}`),
        () => setFailed(true),
      );
  };
  const beginAtOnce = (event: Event): void => {
    event.preventDefault();
    begin(untilDescribed);
  };
  return (
    <ChoosePlant asked onChoose={begin}>
      <a class="quiet" href="/desk" onClick={onLink}>
        {say('to-desk')}
      </a>
      <h1>{say('new-call')}</h1>
      {failed ? (
        <p class="wrong" role="alert">
          {say('call-failed')}
        </p>
      ) : null}
      <form class="begin-call" onSubmit={beginAtOnce}>
        <div class="field">
          <label for="caller-name">{say('caller-name')}</label>
          <input id="caller-name" type="text" autocomplete="off" maxlength={100} ref={name} />
        </div>
        <div class="field">
          <label for="call-back">{say('call-back')}</label>
          <input id="call-back" type="text" autocomplete="off" maxlength={100} ref={callBack} />
        </div>
        <p class="small">{say('caller-later')}</p>
        <button type="submit" class="main">
          {say('begin-call')}
        </button>
        <p class="small">{say('begin-call-why')}</p>
      </form>
      <h2>{say('choose-plant-call')}</h2>
    </ChoosePlant>
  );
}
