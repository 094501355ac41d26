import { recordFrom } from '../../shared/upkeep/record.ts';
import type { PlantRecord } from '../brain/protocol.ts';
import type { KeptCase } from './kept.ts';

/** The plant's record as this case leaves it: what was kept from before, then the case's own readings and work. */
export function recordOf({ record, answers }: KeptCase): PlantRecord {
  const { history, done } = recordFrom(
    answers.flatMap(({ at, ...answer }) => (at === undefined ? [] : [{ ...answer, at }])),
  );
  return {
    history: [...(record?.history ?? []), ...history],
    done: [...(record?.done ?? []), ...done],
  };
}
