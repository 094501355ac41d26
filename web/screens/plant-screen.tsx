import { useState } from 'hono/jsx/dom';
import type { Plant } from '../../shared/plant/schema.ts';
import { goTo } from '../common/router.ts';
import { useSettings } from '../common/settings.ts';
import { useSay } from '../common/words.ts';
import { ChoosePlant } from '../setup/choose-plant.tsx';
import { EditPlant } from '../setup/edit-plant.tsx';
import { keepNew } from '../store/new-case.ts';
import { useCase } from '../store/use-case.ts';
import { NoCase, Waiting } from './no-case.tsx';

/** A new plant: chosen by its picture, corrected, and the asking begins. */
export function NewPlantScreen() {
  const say = useSay();
  const { settings } = useSettings();
  const [plant, setPlant] = useState<Plant | null>(null);
  if (!plant) return <ChoosePlant onChoose={setPlant} />;
  const start = async (edited: Plant): Promise<void> => {
    const kept = await keepNew({ plant: edited, audience: settings.audience });
    goTo(`/case/${kept.key}`);
  };
  return (
    <EditPlant plant={plant} done={say('start-asking')} onDone={(edited) => void start(edited)} />
  );
}

/** The plant of a case, corrected later: an answer like any other, and everything after it follows. */
export function CasePlantScreen({ caseKey }: { readonly caseKey: string }) {
  const say = useSay();
  const open = useCase(caseKey);
  if (open === undefined) return <Waiting />;
  if (open === null) return <NoCase />;
  return (
    <EditPlant
      plant={open.looked.plant}
      done={say('keep-plant')}
      onDone={(plant) => {
        open.answer({ question: 'plant' }, plant);
        goTo(`/case/${caseKey}`);
      }}
    />
  );
}
