import { useState } from 'hono/jsx/dom';
import type { Plant } from '../../shared/plant/schema.ts';
import { goTo, onLink } from '../common/router.ts';
import { useSettings } from '../common/settings.ts';
import { useSay } from '../common/words.ts';
import { ChoosePlant } from '../setup/choose-plant.tsx';
import { EditPlant } from '../setup/edit-plant.tsx';
import { keepNew } from '../store/new-case.ts';
import { useCase } from '../store/use-case.ts';
import { StopSign } from '../talk/stop-sign.tsx';
import { NoCase, Waiting } from './no-case.tsx';

/** A new plant: chosen by its picture, corrected, and the asking begins. */
export function NewPlantScreen() {
  const say = useSay();
  const { settings } = useSettings();
  const [plant, setPlant] = useState<Plant | null>(null);
  if (!plant) {
    return (
      <ChoosePlant onChoose={setPlant}>
        <h1>{say('choose-plant')}</h1>
      </ChoosePlant>
    );
  }
  const start = async (edited: Plant): Promise<void> => {
    const kept = await keepNew({ plant: edited, audience: settings.audience });
    goTo(`/case/${kept.key}`);
  };
  return (
    <EditPlant plant={plant} done={say('start-asking')} onDone={(edited) => void start(edited)} />
  );
}

/**
 * The plant of a case, corrected later or chosen anew: an answer like any other, and everything after it follows. An agent,
 * who hears it on the telephone, has it chosen at once, as with a new call.
 */
export function CasePlantScreen({ caseKey }: { readonly caseKey: string }) {
  const say = useSay();
  const open = useCase(caseKey);
  const [chosen, setChosen] = useState<Plant | 'none yet' | null>(null);
  if (open === undefined) return <Waiting />;
  if (open === null) return <NoCase />;
  const base = `/case/${caseKey}`;
  const { kept, looked } = open;
  const { stopped } = looked.result;
  const keep = (plant: Plant): void => {
    open.answer({ question: 'plant' }, plant);
    goTo(base);
  };
  const back = (
    <>
      {stopped ? <StopSign stopped={stopped} /> : null}
      <a class="quiet" href={base} onClick={onLink}>
        {say('back-to-case')}
      </a>
    </>
  );
  if (chosen === 'none yet') {
    const isTold = kept.audience === 'agent';
    const choose = (plant: Plant): void =>
      (isTold ? keep : setChosen)({ ...plant, name: looked.plant.name });
    return (
      <ChoosePlant asked={isTold} onChoose={choose}>
        {back}
        <h1>{say('choose-plant')}</h1>
      </ChoosePlant>
    );
  }
  return (
    <EditPlant
      key={chosen ? 'chosen' : 'as it was'}
      plant={chosen ?? looked.plant}
      done={say('keep-plant')}
      onDone={keep}
    >
      {back}
      <button type="button" class="choice plain" onClick={() => setChosen('none yet')}>
        {say('choose-other-plant')}
      </button>
    </EditPlant>
  );
}
